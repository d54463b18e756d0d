/**
 * The runs on which thrift tables are tried: drawn devices of every age within the horizon, each with its own weather, kept
 * so that a table costs only the step function. Run k draws from streams (seed, k, …) alone.
 */
import { stream } from '../numeric/random.ts'
import { compilePlan, tablePanel } from '../outlook/compile.ts'
import { drawn, probabilitiesOf } from '../outlook/draw.ts'
import { type Ensemble, timesFor } from '../outlook/ensemble.ts'
import type { Plan } from '../outlook/plan.ts'
import { onGround, planeOf } from '../outlook/plane.ts'
import { drawnSky } from '../outlook/sky-source.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { prepareGenerator } from '../sky/generator.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { momentsOf } from '../wake/moments.ts'
import { remember } from './remember.ts'
import type { Converter } from './thrift-table.ts'

export interface ThriftProblem {
  /** `years` is what a run lasts. */
  readonly ensemble: Ensemble
  /** Allowed intervals, rising. */
  readonly intervals_s: readonly number[]
  readonly mostRows: number
  readonly hysteresis_V: number
  readonly converter: Converter
  /** Share of winters to survive. */
  readonly wanted: number
  /** Runs begin with cells of 0 to this many years less their own, in turn. */
  readonly horizon_years: number
}

export interface ThriftRun {
  readonly plan: Plan
  /** From the cut on, one value a step. */
  readonly light: Float64Array
  readonly air: Float64Array
  /** One for each allowed interval. */
  readonly wakesPerStep: Float64Array
  readonly reportsPerWake: number
  readonly offset_V: number
}

const PURPOSE = { weather: 31, converter: 32 }
const YEAR_s = DAYS * 86_400

/** Makes run k; memos are shared between the runs that one maker makes. */
export function runMaker(problem: ThriftProblem): (run: number) => ThriftRun {
  const { ensemble, intervals_s, converter, horizon_years } = problem
  const { years, seed, stepsPerHour, cutDay } = ensemble
  const outpost = withIntervals(ensemble.outpost, intervals_s)
  const step_s = 3600 / stepsPerHour
  const perDay = 24 * stepsPerHour
  const shapes = dayShapes(outpost.place, stepsPerHour)
  const generator = prepareGenerator(outpost.place.climate)
  const planeFor = remember(planeOf, ({ tilt_deg, azimuth_deg }) => `${tilt_deg} ${azimuth_deg}`)
  const tabler = remember(tablePanel, (...given) => JSON.stringify(given))
  const times = timesFor(outpost.wake, outpost.place.zone_h, ensemble.calendarYear)
  return (run) => {
    const design = aged(
      drawn(outpost, probabilitiesOf(seed, run)),
      run % Math.max(horizon_years - years + 1, 1),
    )
    const rows = expectedWakes(design.wake, times, step_s)
    const sky = drawnSky(generator, shapes, onGround(planeFor(design.place, shapes), design.place))
    sky.start(stream(seed, run, PURPOSE.weather))
    const light = new Float64Array(years * DAYS * perDay)
    const air = new Float64Array(light.length)
    for (let day = 0; day < years * DAYS; day++) {
      const span = [day * perDay, (day + 1) * perDay] as const
      sky.day((cutDay + day) % DAYS, light.subarray(...span), air.subarray(...span))
    }
    return {
      plan: compilePlan(design, rows.slice(0, 1), step_s, tabler),
      light,
      air,
      // The first row is the file's own interval, which need not be allowed.
      wakesPerStep: Float64Array.from(rows.slice(1), ({ wakesPerStep }) => wakesPerStep),
      reportsPerWake: momentsOf(design.wake).reports,
      offset_V: converter.offset_V * stream(seed, run, PURPOSE.converter).normal(),
    }
  }
}

/** The outpost with each allowed interval as a row, so that the rate of each is worked out with the rest. */
function withIntervals(outpost: Outpost, intervals_s: readonly number[]): Outpost {
  const none = { kind: 'exact', value: 0 } as const
  const thrift = intervals_s.map((interval_s) => ({ below_V: none, hysteresis_V: none, interval_s }))
  return { ...outpost, wake: { ...outpost.wake, cadence: { ...outpost.wake.cadence, thrift } } }
}

function aged(design: Outpost<number>, years: number): Outpost<number> {
  const { supply } = design
  const pack = { ...supply.pack, age_s: supply.pack.age_s + years * YEAR_s }
  return { ...design, supply: { ...supply, pack } }
}
