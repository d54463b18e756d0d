import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { envelope, exact, step } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { findCell } from '../supply/cell-catalogue.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { CAUSES, type Cause, causeOf } from './cause.ts'
import { compilePlan } from './compile.ts'
import { chunkPlayer, ensembleOf } from './ensemble.ts'
import type { Plan } from './plan.ts'
import { initialState, type State } from './state.ts'
import { advance } from './step.ts'

const HOUR_s = 3600
const planFor = (design: Outpost<number>) =>
  compilePlan(design, expectedWakes(design.wake, null, HOUR_s), HOUR_s)

/** One primary cell without regulator, that browns out at `brownout_V`. */
function onCell(
  designation: string,
  brownout_V: number,
  wake: Partial<Outpost<number>['wake']>,
): Outpost<number> {
  const cell = findCell(designation)
  if (cell === null) throw new Error(`${designation} is missing`)
  const design = envelope({ rest_A: 2e-6, ...wake })
  const pack = { cell, series: 1, parallel: 1, capacity_C: cell.capacity_C, initial: 1, age_s: 0 }
  const brownout = { at_V: brownout_V, restart_V: brownout_V }
  return { ...design, supply: { ...design.supply, pack, brownout } }
}

const coinCell = (wake: Partial<Outpost<number>['wake']>, brownout_V: number) =>
  onCell('CR2032', brownout_V, wake)

/** As it stood when it went down, in the dark and in constant air. */
function ranDown(plan: Plan, air_C: number): State {
  const state = initialState(plan)
  const dark = new Float64Array(1)
  const air = Float64Array.of(air_C)
  for (let hour = 0; hour < 480_000 && !state.down; hour++) advance(plan, state, dark, air, 0)
  expect(state.down).toBe(true)
  return state
}

describe('the cause of a death', () => {
  const causeAt = (design: Outpost<number>, air_C: number) => {
    const plan = planFor(design)
    return causeOf(plan, ranDown(plan, air_C).fall)
  }
  const burst = step({ duration_s: 0.01, current_A: 0.012 })

  it('is the peak, where a radio burst pulls a coin cell below brown-out', () => {
    expect(causeAt(coinCell({ steps: [step({ duration_s: 0.05, current_A: 0.03 })] }, 2.4), 20)).toBe(
      'brown-out under the peak',
    )
  })
  it('is the cold, where the same burst would have passed at 20 °C', () => {
    expect(causeAt(coinCell({ steps: [burst] }, 2.2), -25)).toBe('cold')
  })
  it('is an empty cell, where only rest was left to feed', () => {
    expect(
      causeAt(coinCell({ steps: [step({ duration_s: 0.01, current_A: 0.0001 })], rest_A: 1e-4 }, 1.9), 20),
    ).toBe('empty')
  })

  it('is the cold only where the same cell at 20 °C goes on to half of what was left', () => {
    const seen = new Set<Cause>()
    fc.assert(
      fc.property(
        fc.constantFrom(['CR2032', 2, 0.06], ['LR6', 0.9, 2], ['ER14505', 3, 0.06], ['FR6', 1.1, 2]),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        fc.integer({ min: -30, max: 4 }),
        ([designation, brownout_V, most_A], share, air_C) => {
          const burst = step({ duration_s: 0.5, current_A: share * Number(most_A) })
          const plan = planFor(
            onCell(String(designation), Number(brownout_V), { steps: [burst], rest_A: 1e-3 }),
          )
          const { fall } = ranDown(plan, air_C)
          const state = initialState(plan)
          const head = Math.max(fall.head - Math.max(fall.head / 2, 0.15), 0)
          state.available_C = plan.available * plan.capacity_C * (1 - fall.fade) * head
          state.charge_C = plan.capacity_C * (1 - fall.fade) * head
          state.fade = fall.fade
          advance(plan, state, new Float64Array(1), Float64Array.of(20), 0)
          const cause = causeOf(plan, fall)
          seen.add(cause)
          if (cause !== 'too old') expect(cause === 'cold').toBe(!state.down)
        },
      ),
      { numRuns: 60, seed: 11 },
    )
    expect(seen.size).toBeGreaterThan(1)
  })
})

describe('the causes of an ensemble', () => {
  /** First deaths by cause in a place that has the same mean in every month, and days that differ by 3.5 K. */
  const deathsAt = (design: Outpost<number>, mean_C: number) => {
    const climate = {
      ...design.place.climate,
      temperature_C: new Array<number>(12).fill(mean_C),
      dailyRange_K: new Array<number>(12).fill(0),
      dailyDeviation_K: 3.5,
    }
    const place = { ...design.place, enclosureRise_K: 0, climate }
    const choices = { years: 4, runs: 50, seed: 1, stepsPerHour: 1, cutDay: 181, calendarYear: 2027 }
    const tally = chunkPlayer(ensembleOf(exact({ ...design, place }), choices))(0, choices.runs)
    return Object.fromEntries(CAUSES.map((cause, i) => [cause, tally.grids.firstDeathsByCause[i]]))
  }
  const sends = (current_A: number) => ({
    steps: [step({ duration_s: 1, current_A: 0.004, peak: { current_A, duration_s: 0.05 } })],
    cadence: { schedule: { kind: 'rest' as const, rest_s: 60 }, events: null, thrift: [] },
  })

  it.each([
    ['CR2032', 2, 0.015],
    ['CR2032', 2, 0.03],
    ['CR2032', 2, 0.045],
    ['LR6', 0.9, 0.5],
    ['LR6', 0.9, 1],
    ['FR6', 1.1, 2],
  ])(
    'never name the cold where it is 20 °C the year round: %s, down at %d V, %d A',
    (cell, brownout_V, peak_A) => {
      const { cold, 'brown-out under the peak': peak } = deathsAt(onCell(cell, brownout_V, sends(peak_A)), 20)
      expect({ cold, peak }).toEqual({ cold: 0, peak: 50 })
    },
  )

  it.each([
    ['CR2032', 2, 0.015],
    ['LR6', 0.9, 0.5],
    ['ER14505', 3, 0.03],
  ])('name it in deep cold: %s, down at %d V, %d A', (cell, brownout_V, peak_A) => {
    expect(deathsAt(onCell(cell, brownout_V, sends(peak_A)), -15)).toMatchObject({ cold: 50 })
  })
})
