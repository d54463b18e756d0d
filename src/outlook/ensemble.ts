/**
 * An ensemble: many runs of one design, each with its own draw of the uncertain numbers and its own weather. Plain data
 * in, tallies out, so that any number of threads can share it; run k draws from streams (seed, k, …) and from nothing
 * else.
 */
import { stream } from '../numeric/random.ts'
import { requireSound } from '../outpost/invariants.ts'
import type { Aims, Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { prepareGenerator } from '../sky/generator.ts'
import type { Place } from '../sky/place.ts'
import { type ExpectedWakes, expectedWakes } from '../wake/expected-wakes.ts'
import { timesOfYear } from '../wake/local-times.ts'
import { momentsOf } from '../wake/moments.ts'
import type { Wake } from '../wake/wake.ts'
import { wearOf } from '../wake/wear.ts'
import { addBudget, budgetParts, dayBudget_C } from './budget.ts'
import { compilePlan, tablePanel } from './compile.ts'
import { atBest, drawn, probabilitiesOf } from './draw.ts'
import type { BudgetPart } from './outlook.ts'
import { onGround, planeOf } from './plane.ts'
import { playRun, type RunOutcome } from './run.ts'
import { drawnSky } from './sky-source.ts'
import { emptyTally, type Tally } from './tally.ts'
import { DailyWalk } from './walk.ts'

export interface Ensemble {
  readonly outpost: Outpost
  readonly years: number
  readonly runs: number
  readonly seed: number
  readonly stepsPerHour: number
  /** Day of the year on which each winter year begins. */
  readonly cutDay: number
  /** The calendar year whose clock changes hold, for times of day. */
  readonly calendarYear: number
  /** As `timesFor` gives them, so that no thread needs a calendar. */
  readonly times_s: Float64Array | null
  readonly scheduledReportsPerDay: number
  readonly budgetParts: readonly Pick<BudgetPart, 'name' | 'kind'>[]
}

/** Purpose of the stream that a run's weather is drawn from. */
export const WEATHER_STREAM = 2

/** What an ensemble needs beyond the choices of who plays it. RangeError, naming every broken rule, on an unsound design. */
export function ensembleOf(
  outpost: Outpost,
  choices: Omit<Ensemble, 'outpost' | 'times_s' | 'scheduledReportsPerDay' | 'budgetParts'>,
): Ensemble {
  const best = atBest(outpost)
  requireSound(best)
  const { wake, place } = best
  const times_s = timesFor(wake, place.zone_h, choices.calendarYear)
  const [usual] = expectedWakes(wake, times_s, 3600 / choices.stepsPerHour)
  return {
    ...choices,
    outpost,
    times_s,
    scheduledReportsPerDay: usual.reportsPerDay,
    budgetParts: budgetParts(outpost),
  }
}

export function wakesOf(
  wake: Wake<number>,
  place: Place<number>,
  choices: Pick<Ensemble, 'calendarYear' | 'stepsPerHour'>,
): ExpectedWakes[] {
  return expectedWakes(wake, timesFor(wake, place.zone_h, choices.calendarYear), 3600 / choices.stepsPerHour)
}

/** The moments of a cadence of local times, null for any other; the same for every draw of a design. */
export function timesFor(
  { cadence }: Wake<unknown>,
  zone_h: number,
  calendarYear: number,
): Float64Array | null {
  const { schedule } = cadence
  return schedule?.kind === 'times-of-day'
    ? timesOfYear(schedule.times, schedule.zone, zone_h, calendarYear)
    : null
}

/** Plays runs `from` to `to` (not included) and tallies them; `onRun` is told what came of each. */
export type ChunkPlayer = (
  from: number,
  to: number,
  onRun?: (run: number, outcome: RunOutcome) => void,
) => Tally

/** The player of an ensemble: what all its runs share is worked out once, here. */
export function chunkPlayer(ensemble: Ensemble): ChunkPlayer {
  const { outpost, years, seed, stepsPerHour, times_s } = ensemble
  const shapes = dayShapes(outpost.place, stepsPerHour)
  const generator = prepareGenerator(outpost.place.climate)
  const step_s = 3600 / stepsPerHour
  const planeFor = memo(planeOf, ({ tilt_deg, azimuth_deg }) => `${tilt_deg} ${azimuth_deg}`)
  const tabler = memo(tablePanel, (...given) => JSON.stringify(given))
  return (from, to, onRun = () => {}) => {
    const tally = emptyTally(years, ensemble.budgetParts.length)
    for (let run = from; run < to; run++) {
      const design = drawn(outpost, probabilitiesOf(seed, run))
      const rows = expectedWakes(design.wake, times_s, step_s)
      const plan = compilePlan(design, rows, step_s, tabler)
      const sky = drawnSky(generator, shapes, onGround(planeFor(design.place, shapes), design.place))
      const settings = {
        years,
        cutDay: ensemble.cutDay,
        reportsPerWake: momentsOf(design.wake).reports,
        scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
        flashLife_days: flashLife_days(design.wake, rows[0].wakesPerDay),
        isJudged: true,
        judgedDays: judgedDays(outpost.aims, years),
        endsWhenDown: plan.charging === null,
      }
      onRun(run, playRun(new DailyWalk(plan, sky), stream(seed, run, WEATHER_STREAM), settings, tally))
      addBudget(tally, dayBudget_C(design, rows[0].wakesPerDay))
    }
    return tally
  }
}

/** Aims hold until the cell is replaced, or as long as is played. */
export const judgedDays = ({ years: wanted }: Aims, played: number): number =>
  Math.round(Math.min(wanted ?? played, played) * DAYS)

/** Days until the first of the memories is worn out. */
export const flashLife_days = ({ keeps }: Wake<number>, wakesPerDay: number) =>
  Math.min(...wearOf(keeps, wakesPerDay).map(({ years }) => (years === null ? Infinity : years * DAYS)))

/** Remembers the last answer: most designs leave panel and plane as they are from run to run. */
function memo<Arguments extends unknown[], Result>(
  f: (...given: Arguments) => Result,
  keyOf: (...given: Arguments) => string,
) {
  let last: { key: string; result: Result } | null = null
  return (...given: Arguments): Result => {
    const key = keyOf(...given)
    if (last === null || key !== last.key) last = { key, result: f(...given) }
    return last.result
  }
}
