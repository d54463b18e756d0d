/** The use case behind `overwinter thrift`: an outpost file in, the table of voltages and intervals out. */
import { basename } from 'node:path'
import { intervalOf } from '../decisions/sizing-axes.ts'
import { spaceOf, type Thrift, thriftOf } from '../decisions/thrift.ts'
import { type ThriftAnswer, type ThriftTask, thriftDesk } from '../decisions/thrift-desk.ts'
import type { RunOutcome } from '../decisions/thrift-play.ts'
import type { ThriftProblem } from '../decisions/thrift-runs.ts'
import { type Found, searchTable, type TryAll } from '../decisions/thrift-search.ts'
import type { Converter } from '../decisions/thrift-table.ts'
import { ensembleOf } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { weatherWords } from '../report/weather-words.ts'
import { yearCut } from '../sky/year-cut.ts'
import { type Crew, crewFor } from './crew.ts'
import type { ForecastChoices } from './forecast.ts'
import { intoWeather } from './in-weather.ts'
import { type OutpostSource, openDesign } from './open-design.ts'
import type { Playing } from './playing.ts'
import { Refusal } from './refusal.ts'

export interface ThriftChoices
  extends Pick<ForecastChoices, 'seed' | 'weather' | 'variant' | 'calendarYear' | 'colour'> {
  readonly runs: number | null
  /** Null for the file's own interval and the usual longer ones. */
  readonly intervals_s: readonly number[] | null
  readonly mostRows: number
  readonly hysteresis_V: number
  readonly converter: Converter
  /** Null for the file's aim, or 95 % where it has none. */
  readonly wanted: number | null
}

export interface ThriftReport extends Thrift {
  readonly file: string
  readonly title: string
  readonly seed: number
  /** Where it comes from, in words. */
  readonly weather: string
  /** The schedule's own word for its interval in an outpost file. */
  readonly schedule: 'rest' | 'rate' | 'clock minutes'
}

const USUAL_INTERVALS_s = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 360, 480, 720, 1440].map(
  (min) => 60 * min,
)
const USUAL_WANTED = 0.95
/** A year to settle and another: what lives on its savings has used them up, or most. */
const YEARS = 2
const LEAST_RUNS = 120
/** Years of device life tried in a search: some seconds a thread. */
const TRIED_YEARS = 24_000
const FRESH = { runsATask: 5, seedsOn: 1_000_003, least_years: 10 }
const Z95_SQUARED = 3.8415

/** Throws a Refusal where the file holds no design, or one whose interval cannot follow the battery. */
export async function thriftFile(
  source: OutpostSource,
  choices: ThriftChoices,
  playing: Playing,
): Promise<ThriftReport> {
  const { path, design } = await openDesign(source, choices.variant, choices.colour)
  const { outpost, weatherYear } = (await intoWeather(choices.weather))(design)
  const schedule = scheduleWord(outpost, path)
  const problem = problemOf(outpost, choices, path)
  const crew = crewFor<ThriftProblem, ThriftTask, ThriftAnswer>(
    { worker: 'thrift-worker', isLong: true, problem, here: () => thriftDesk(problem) },
    playing,
  )
  try {
    const thrift = await solve(problem, crew, playing)
    const title = choices.variant === null ? outpost.title : `${outpost.title}: ${choices.variant}`
    const weather = weatherWords(weatherYear, choices.weather !== null)
    return { file: basename(path), title, seed: choices.seed, weather, schedule, ...thrift }
  } finally {
    await crew.close()
  }
}

async function solve(problem: ThriftProblem, crew: Crew<ThriftTask, ThriftAnswer>, { onProgress }: Playing) {
  const { runs, years } = problem.ensemble
  const mostTries = Math.max(Math.floor(TRIED_YEARS / (runs * years)), 40)
  const freshTasks = Math.ceil(runs / FRESH.runsATask)
  const all = mostTries + runs + freshTasks
  let done = 0
  const step = () => onProgress?.(++done, all)

  const tryAll: TryAll = async (tables) => {
    const answers = await crew.run(
      tables.map((table): ThriftTask => ({ kind: 'try', table })),
      step,
    )
    return answers.map((answer) => (answer.kind === 'try' ? answer.outcome : null))
  }
  const found = await searchTable(spaceOf(problem, mostTries), tryAll)
  done = mostTries
  const bounds = await crew.run(
    Array.from({ length: runs }, (_, run): ThriftTask => ({ kind: 'bound', run })),
    step,
  )
  return thriftOf(problem, {
    found,
    bounds: bounds.flatMap((answer) => (answer.kind === 'bound' ? [answer.bound] : [])),
    fresh: await freshOutcomes(problem, found, crew, step),
  })
}

/** The findings on new devices under other weather, from new cells on for as long as a forecast goes. */
async function freshOutcomes(
  problem: ThriftProblem,
  { best: found, bestFixed }: Found,
  crew: Crew<ThriftTask, ThriftAnswer>,
  step: () => void,
) {
  if (found === null || bestFixed === null) return null
  const { ensemble, horizon_years } = problem
  const seed = (ensemble.seed + FRESH.seedsOn) % Number.MAX_SAFE_INTEGER
  const other = { ...problem, ensemble: { ...ensemble, seed, years: horizon_years } }
  const { runs } = other.ensemble
  const tables = [found.table, bestFixed.table]
  const answers = await crew.run(
    Array.from({ length: Math.ceil(runs / FRESH.runsATask) }, (_, i): ThriftTask => {
      const from = i * FRESH.runsATask
      return { kind: 'fresh', problem: other, tables, from, to: Math.min(from + FRESH.runsATask, runs) }
    }),
    step,
  )
  const outcomes = tables.map((_, i): RunOutcome[] =>
    answers.flatMap((answer) => (answer.kind === 'fresh' ? answer.outcomes[i] : [])),
  )
  return { problem: other, outcomes }
}

function problemOf(outpost: Outpost, choices: ThriftChoices, path: string): ThriftProblem {
  const { converter, seed, calendarYear } = choices
  const wanted = choices.wanted ?? outpost.aims.winters ?? USUAL_WANTED
  // Fewer runs could not show the wanted share even if none were lost: Wilson's bound for n of n is n / (n + z²).
  const shown = Math.ceil((1.2 * Z95_SQUARED * wanted) / (1 - wanted)) + 1
  const runs = choices.runs ?? Math.max(shown, LEAST_RUNS)
  const cutDay = yearCut(outpost.place.latitude_deg, outpost.place.climate.clearness)
  const intervals_s = choices.intervals_s ?? usualIntervals(outpost)
  const steps = Math.max(1, Math.ceil(choices.hysteresis_V / converter.resolution_V - 1e-9))
  if (outpost.wake.cadence.schedule?.kind === 'clock-minutes' && intervals_s.some((s) => s % 60 !== 0))
    throw new Refusal(`${path} wakes by a clock with minute resolution: give intervals in whole minutes.`)
  return {
    ensemble: ensembleOf(outpost, { years: YEARS, runs, seed, stepsPerHour: 1, cutDay, calendarYear }),
    intervals_s,
    mostRows: choices.mostRows,
    hysteresis_V: steps * converter.resolution_V,
    converter,
    wanted,
    horizon_years: Math.max(FRESH.least_years, Math.ceil(outpost.aims.years ?? 0)),
  }
}

/** Never more often than the file says: that is how often there is something to report. */
function usualIntervals(outpost: Outpost): number[] {
  const own = intervalOf(outpost)
  if (own === null) throw new RangeError('only a rest, a rate or clock minutes have an interval')
  return [own, ...USUAL_INTERVALS_s.filter((interval_s) => interval_s > own)]
}

function scheduleWord({ wake, supply }: Outpost, path: string): ThriftReport['schedule'] {
  if (supply.panel === null || supply.charger === null)
    throw new Refusal(
      `${path} has no panel: a table of voltages saves nothing for later where no light comes back. Choose the interval by the wanted life instead.`,
    )
  switch (wake.cadence.schedule?.kind) {
    case 'rest':
    case 'rate':
      return wake.cadence.schedule.kind
    case 'clock-minutes':
      return 'clock minutes'
    default:
      throw new Refusal(
        `${path} wakes at times of day or by events: a thrift table needs a cadence with an interval (rest, rate or clock minutes).`,
      )
  }
}
