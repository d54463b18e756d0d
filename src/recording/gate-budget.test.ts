import { describe, expect, it } from 'vitest'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import { segmentsOf } from '../wake/segments.ts'
import type { Step, Wake } from '../wake/wake.ts'
import { cycleCharge, stepBudget } from './gate-budget.ts'

const within = (value: number, share: number): Uncertain => ({
  kind: 'normal',
  value,
  u: (share * value) / 2,
})

const step = (fields: Partial<Step>): Step => ({
  name: 'send',
  duration_s: exactly(2),
  current_A: exactly(0.03),
  peak: null,
  chance: exactly(1),
  every: 1,
  retries: null,
  reports: 0,
  rail: null,
  note: null,
  ...fields,
})

const wake = (steps: readonly Step[]): Wake => ({
  steps,
  boot: [],
  cadence: { schedule: null, events: null, thrift: [] },
  rest_A: exactly(20e-6),
  standing: [],
  resume: 'continue',
  keeps: [],
})

describe('budget of a step', () => {
  it('is current by time, and by JCGM 100 eq. 12 relative uncertainties add in squares', () => {
    const { charge_C } = stepBudget(step({ duration_s: within(2, 0.03), current_A: within(0.03, 0.04) }), [])
    expect(charge_C.value).toBeCloseTo(0.06, 12)
    expect(charge_C.limit / charge_C.value).toBeCloseTo(1.05, 6)
  })

  // By hand, from the tolerances as written: 24.5 mA · 60 ms, 20 mA · 9 s, and so on; linear in one number, so exact.
  it.each<[string, Uncertain, Uncertain, number]>([
    ['a range of current', { kind: 'uniform', low: 5e-3, high: 24.5e-3 }, exactly(0.06), 1.47e-3],
    ['a typical time with its range', exactly(0.02), { kind: 'skewed', typical: 4, p5: 2, p95: 9 }, 0.18],
    ['an upper limit', { kind: 'below', limit: 5e-3 }, exactly(2), 0.01],
    ['a tolerance of both signs', { kind: 'normal', value: 0.025, u: 0.001 }, exactly(2), 0.054],
    ['no tolerance', exactly(0.02), exactly(3), 0.06],
  ])('with %s allows its very end', (_what, current_A, duration_s, limit) => {
    const { charge_C } = stepBudget(step({ current_A, duration_s }), [])
    expect(charge_C.limit).toBeCloseTo(limit, 12)
  })

  it('lets a longer peak, or a shorter step around it, raise the mean current', () => {
    const short = step({
      current_A: exactly(0),
      duration_s: { kind: 'uniform', low: 1.9, high: 2.1 },
      peak: { current_A: exactly(0.3), duration_s: exactly(0.1) },
    })
    // 30 mC over 2 s are 15 mA, and change by −7.5 mA a second, of which the range gives a tenth.
    const { current_A, charge_C } = stepBudget(short, [])
    expect(current_A.limit).toBeCloseTo(0.01575, 8)
    expect(charge_C.limit).toBeCloseTo(0.03, 12)
  })

  it('takes as much with its peak as the segments that the engine plays', () => {
    const peak = { current_A: exactly(0.3), duration_s: exactly(0.008) }
    const played = segmentsOf(
      {
        ...step({}),
        duration_s: 2,
        current_A: 0.03,
        chance: 1,
        retries: null,
        peak: { current_A: 0.3, duration_s: 0.008 },
      },
      { failures: 0, succeeds: true },
      0,
    )
    const charge = played.reduce((sum, { duration_s, current_A }) => sum + duration_s * current_A, 0)
    const { charge_C, current_A } = stepBudget(step({ peak }), [exactly(1e-3)])
    expect(charge_C.value).toBeCloseTo(charge + 2e-3, 12)
    expect(current_A.value).toBeCloseTo((charge + 2e-3) / 2, 12)
  })
})

describe('budget of a cycle', () => {
  it('is its wake and the rest until the next', () => {
    const { value, limit } = cycleCharge(wake([step({})]), [exactly(5e-6)], 600)
    expect(value).toBeCloseTo(0.06 + 20e-6 * 598 + 5e-6 * 600, 12)
    expect(limit).toBe(value)
  })

  it('counts a step of every fourth wake with a quarter, also in what is uncertain of it', () => {
    const seldom = step({ every: 4, current_A: within(0.03, 0.1) })
    const { value, limit } = cycleCharge(wake([seldom]), [], 600)
    expect(value).toBeCloseTo(0.06 / 4 + 20e-6 * (600 - 0.5), 12)
    expect(limit - value).toBeCloseTo((0.1 * 0.06) / 4, 8)
  })

  it('goes to the end of a range, not to two standard uncertainties', () => {
    const ranged = { ...wake([step({})]), rest_A: { kind: 'uniform', low: 10e-6, high: 30e-6 } as const }
    expect(cycleCharge(ranged, [], 600).limit).toBeCloseTo(0.06 + 30e-6 * 598, 12)
  })
})
