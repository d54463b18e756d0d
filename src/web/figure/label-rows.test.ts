import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { labelRows } from './label-rows.ts'

const ROOM = { left: 0, right: 400, rows: 3 }

describe('labelRows', () => {
  it('puts names that have room side by side into the lowest row', () => {
    const placed = labelRows(
      [
        { text: 'one', x: 50, weight: 1 },
        { text: 'two', x: 200, weight: 2 },
      ],
      ROOM,
    )
    expect(placed.map(({ row }) => row)).toEqual([0, 0])
  })

  it('keeps names inside, apart, and off one another’s leaders', () => {
    const wanted = fc.array(
      fc.record({
        text: fc.string({ minLength: 1, maxLength: 30 }),
        x: fc.double({ min: 0, max: 400, noNaN: true }),
        weight: fc.double({ min: 0, max: 1, noNaN: true }),
      }),
      { maxLength: 12 },
    )
    fc.assert(
      fc.property(wanted, (names) => {
        const placed = labelRows(names, ROOM)
        for (const a of placed) {
          expect(a.left).toBeGreaterThanOrEqual(0)
          expect(a.left + a.width).toBeLessThanOrEqual(400 + 1e-9)
          for (const b of placed) {
            if (a === b) continue
            if (a.row === b.row) expect(a.left >= b.left + b.width || b.left >= a.left + a.width).toBe(true)
            if (a.row > b.row) expect(a.x > b.left && a.x < b.left + b.width).toBe(false)
          }
        }
      }),
      { seed: 5, numRuns: 300 },
    )
  })

  it('leaves out the least where there is no room', () => {
    const names = Array.from({ length: 8 }, (_, i) => ({ text: 'a name of some length', x: 200, weight: i }))
    const placed = labelRows(names, ROOM)
    expect(placed.map(({ weight }) => weight)).toContain(7)
    expect(placed.length).toBeLessThan(8)
  })
})
