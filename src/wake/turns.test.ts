import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { turnsOf } from './turns.ts'

/** Shares by counting through one whole cycle of wakes. */
function counted(periods: number[]): Map<string, number> {
  const cycle = periods.reduce((product, n) => product * n, 1)
  const shares = new Map<string, number>()
  for (let index = 1; index <= cycle; index++) {
    const due = [...new Set([1, ...periods.filter((n) => index % n === 0)])].sort((a, b) => a - b).join()
    shares.set(due, (shares.get(due) ?? 0) + 1 / cycle)
  }
  return shares
}

describe('turns', () => {
  it('have the shares that counting gives', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 9 }), { maxLength: 4 }), (periods) => {
        const expected = counted(periods)
        const turns = turnsOf(periods)
        expect(turns.length).toBe(expected.size)
        for (const { share, due } of turns)
          expect(share).toBeCloseTo(expected.get([...due].sort((a, b) => a - b).join())!, 12)
      }),
      { seed: 4 },
    )
  })
  it('need no walk through the cycle: three long coprime periods', () => {
    const turns = turnsOf([997, 1009, 1013])
    expect(turns.length).toBe(8)
    expect(turns.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 14)
  })
  it('refuse periods that are not whole, and more than twelve of them', () => {
    expect(() => turnsOf([2.5])).toThrow(RangeError)
    expect(() => turnsOf(Array.from({ length: 13 }, (_, k) => k + 2))).toThrow(/at most 12/)
  })
})
