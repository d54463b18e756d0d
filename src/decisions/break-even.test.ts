import { describe, expect, it } from 'vitest'
import { envelope, exact, step } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import { breakEvens } from './break-even.ts'

/** On an ideal cell: a wake of one step, a rest current, nothing else. */
function strategy(rest_A: Uncertain, duration_s: number, current_A: number): Outpost {
  const design = exact(envelope({ steps: [step({ duration_s, current_A })] }))
  return { ...design, wake: { ...design.wake, rest_A } }
}
const exactly = (value: number): Uncertain => ({ kind: 'exact', value })

describe('the break-even rest', () => {
  const lighter = { name: 'joined', outpost: strategy(exactly(2e-3), 0.2, 0.1) }
  const deeper = { name: 'off', outpost: strategy(exactly(20e-6), 3, 0.09) }

  it('is (Q2 − Q1)/(I1 − I2) where all is exact', () => {
    const [found] = breakEvens([lighter, deeper], 1)
    // By hand: (3 s · 90 mA − 0.2 s · 100 mA) / (2 mA − 20 µA).
    expect(found.rest_s).toBeCloseTo((0.27 - 0.02) / (2e-3 - 20e-6), 9)
    expect(found.low_s).toBeCloseTo(found.rest_s ?? 0, 9)
    expect(found.high_s).toBeCloseTo(found.rest_s ?? 0, 9)
    expect(found).toMatchObject({ deeper: 'off', lighter: 'joined', always: 0, never: 0 })
  })

  it('takes as its interval what the tolerances make of the closed form', () => {
    const vague = { name: 'joined', outpost: strategy({ kind: 'uniform', low: 1e-3, high: 3e-3 }, 0.2, 0.1) }
    const [found] = breakEvens([vague, deeper], 1)
    // The rest is monotone in the current, so its 5 % point is the closed form at the current's 95 % point.
    const at = (rest_A: number) => (0.27 - 0.02) / (rest_A - 20e-6)
    expect(Math.abs((found.low_s ?? 0) / at(2.9e-3) - 1)).toBeLessThan(0.02)
    expect(Math.abs((found.high_s ?? 0) / at(1.1e-3) - 1)).toBeLessThan(0.05)
  })

  it('says at any rest where the deeper sleep wakes no dearer, and nothing of strategies that rest alike', () => {
    const cheap = { name: 'cheap', outpost: strategy(exactly(20e-6), 0.1, 0.1) }
    expect(breakEvens([lighter, cheap], 1)[0]).toMatchObject({ deeper: 'cheap', rest_s: 0, always: 1 })
    expect(breakEvens([lighter, { ...lighter, name: 'twin' }], 1)).toEqual([])
  })

  it('cancels what two strategies share', () => {
    const shared: Uncertain = { kind: 'uniform', low: 0.05, high: 0.15 }
    const both = [lighter, deeper].map(({ name, outpost }) => {
      const sense = { ...outpost.wake.steps[0], name: 'sense', duration_s: exactly(5), current_A: shared }
      return {
        name,
        outpost: { ...outpost, wake: { ...outpost.wake, steps: [sense, ...outpost.wake.steps] } },
      }
    })
    const [found] = breakEvens(both, 1)
    expect((found.high_s ?? 0) - (found.low_s ?? 0)).toBeLessThan(1e-6)
  })
})
