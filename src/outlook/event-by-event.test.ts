import { describe, expect, it } from 'vitest'
import { step, sunlit } from '../../test/designs.ts'
import { stream } from '../numeric/random.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { prepareGenerator } from '../sky/generator.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { timesOfYear } from '../wake/local-times.ts'
import type { Wake } from '../wake/wake.ts'
import { compilePlan } from './compile.ts'
import { playEvents } from './event-by-event.ts'
import { planeOf } from './plane.ts'
import { drawnSky } from './sky-source.ts'
import { initialState } from './state.ts'
import { advance } from './step.ts'

const DAYS = 30
const HOURS = 24 * DAYS
const PATHS = 12
const WITHIN = 0.005

/** The same thirty days for both: light and air by the hour. */
function month(design: Outpost<number>, startDay: number) {
  const shapes = dayShapes(design.place, 1)
  const sky = drawnSky(prepareGenerator(design.place.climate), shapes, planeOf(design.place, shapes))
  const light_W_m2 = new Float64Array(HOURS)
  const air_C = new Float64Array(HOURS)
  sky.start(stream(11, 0, 2))
  for (let day = 0; day < DAYS; day++) {
    const hours = [24 * day, 24 * day + 24] as const
    sky.day(startDay + day, light_W_m2.subarray(...hours), air_C.subarray(...hours))
  }
  return { light_W_m2, air_C }
}

const wake = (over: Partial<Wake<number>>): Outpost<number> => ({
  ...sunlit,
  wake: { ...sunlit.wake, ...over },
})
const schedule = (schedule: Wake<number>['cadence']['schedule']) => ({ schedule, events: null, thrift: [] })

describe('thirty days wake by wake and hour by hour use the same charge', () => {
  const failing = step({
    retries: { probability: 0.2, times: 2, backoff_s: 5, failedDuration_s: 3 },
    peak: { current_A: 0.3, duration_s: 0.05 },
  })
  it.each<[string, Outpost<number>, number]>([
    ['a fixed rest', sunlit, 330],
    [
      'a fixed rate with retries',
      wake({ steps: [failing], cadence: schedule({ kind: 'rate', period_s: 900 }) }),
      330,
    ],
    [
      'clock minutes with a restart',
      wake({
        resume: 'restart',
        boot: [step({ name: 'boot', duration_s: 1, reports: 0 })],
        cadence: schedule({ kind: 'clock-minutes', minutes: 10 }),
      }),
      150,
    ],
    [
      'a batch of six',
      wake({
        steps: [
          step({ name: 'sense', duration_s: 0.3, current_A: 0.01, reports: 0 }),
          step({ every: 6, reports: 6 }),
        ],
      }),
      100,
    ],
    [
      'local times of day',
      wake({
        cadence: schedule({
          kind: 'times-of-day',
          times: [0, 6, 12, 18].map((hour) => ({ hour, minute: 7, second: 0 })),
          zone: 'Europe/Oslo',
        }),
      }),
      75, // over the change to summer time
    ],
    [
      'random events',
      wake({
        cadence: { schedule: null, events: { perDay: 1000 }, thrift: [] },
        steps: [step({ duration_s: 1 })],
      }),
      250,
    ],
  ])('%s', (_, design, startDay) => {
    const sky = month(design, startDay)
    const times =
      design.wake.cadence.schedule?.kind === 'times-of-day'
        ? timesOfYear(
            design.wake.cadence.schedule.times,
            design.wake.cadence.schedule.zone,
            design.place.zone_h,
            2027,
          )
        : null
    // Chances, retries and events scatter in the slow one; the hourly engine has their expectation. The mean of PATHS
    // paths scatters by a few tenths of a percent at most.
    const paths = Array.from({ length: PATHS }, (_, path) =>
      playEvents(design, sky, startDay, times, stream(11, path, 3)),
    )
    const mean = (key: 'in_C' | 'out_C' | 'charge_C' | 'wakes') =>
      paths.reduce((sum, path) => sum + path[key], 0) / PATHS
    const slow = {
      in_C: mean('in_C'),
      out_C: mean('out_C'),
      charge_C: mean('charge_C'),
      wakes: mean('wakes'),
    }
    const plan = compilePlan(design, expectedWakes(design.wake, times, 3600), 3600)
    const fast = initialState(plan)
    advance(plan, fast, sky.light_W_m2, sky.air_C, 24 * startDay)
    expect(fast.down).toBe(false)
    expect(Math.abs(fast.out_C / slow.out_C - 1)).toBeLessThan(WITHIN)
    expect(Math.abs(fast.in_C / slow.in_C - 1)).toBeLessThan(0.01)
    expect(Math.abs(fast.charge_C - slow.charge_C) / plan.capacity_C).toBeLessThan(WITHIN)
    // The slow one also wakes once when it is switched on.
    expect(Math.abs(fast.wakes - slow.wakes)).toBeLessThan(1.5 + WITHIN * slow.wakes)
  })
})
