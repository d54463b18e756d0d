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
    expect((2 * charge_C.u) / charge_C.value).toBeCloseTo(0.05, 6)
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
    const { value, u } = cycleCharge(wake([step({})]), [exactly(5e-6)], 600)
    expect(value).toBeCloseTo(0.06 + 20e-6 * 598 + 5e-6 * 600, 12)
    expect(u).toBe(0)
  })

  it('counts a step of every fourth wake with a quarter, also in what is uncertain of it', () => {
    const seldom = step({ every: 4, current_A: within(0.03, 0.1) })
    const { value, u } = cycleCharge(wake([seldom]), [], 600)
    expect(value).toBeCloseTo(0.06 / 4 + 20e-6 * (600 - 0.5), 12)
    expect(2 * u).toBeCloseTo((0.1 * 0.06) / 4, 8)
  })
})
