/**
 * Weather of any number of years, a day at a time, from the climate of a place. A day's clearness follows the month's
 * law exactly and hangs together with the day before: a Gaussian AR(1) score read through the law's quantile function
 * (Graham, Hollands & Brunger, Solar Energy 40 (1988) 83-92), with the score's own lag-one set so that clearness gets
 * the one asked. All costly work is in the tables; drawing a day takes two normal deviates and one look-up.
 *
 * Clearness is stepwise by month, so that the mean irradiation of each month is exact in expectation; temperature runs
 * smoothly through its monthly means.
 */
import { normalQuantileFast } from '../numeric/normal.ts'
import type { Stream } from '../numeric/random.ts'
import { dailyFromMonthly } from './annual-cycle.ts'
import { MONTH_OF_DAY } from './calendar.ts'
import { type ClearnessLawName, clearnessLaw } from './clearness-law.ts'
import { SCORE_CELLS, SCORE_LIMIT, scoreLagOne, scoreTable } from './clearness-score.ts'
import type { Climate } from './place.ts'

/** Tables over the days 0..364 and months of a year; plain data, fit to be handed to another thread. */
export interface Generator {
  /** Row m: clearness over the score's grid in month m. */
  readonly clearnessByScore: Float64Array
  readonly scoreLagOne: Float64Array
  readonly meanClearness: Float64Array
  readonly temperature_C: Float64Array
  readonly dailyRange_K: Float64Array
  /** Correlation of a day's temperature deviation with its score. */
  readonly temperatureWithScore: Float64Array
  readonly dailyDeviation_K: number
  readonly temperatureLagOne: number
  readonly monthOfDay: Uint8Array
}

const ROW = SCORE_CELLS + 1

/**
 * Clear days are warm in summer and cold in winter, when the clear night loses more than the low sun brings. Common
 * practice; two typical years show 0.2 to 0.5 in summer and 0 to −0.7 in winter (docs/models/weather.md).
 */
const SEASONAL_CORRELATION = 0.3
/** An annual cycle with a smaller swing (K, about its mean) has that much less of a summer and a winter. */
const FULL_SWING_K = 5

/** How much of the relative deviation of a day's clearness its temperature range shares; 0.84 and 0.36 in two years. */
const RANGE_WITH_CLEARNESS = 0.6

function seasonalCorrelation(temperature_C: Float64Array): Float64Array {
  const mean = temperature_C.reduce((sum, t) => sum + t, 0) / temperature_C.length
  const swing = temperature_C.reduce((most, t) => Math.max(most, Math.abs(t - mean)), FULL_SWING_K)
  return temperature_C.map((t) => (SEASONAL_CORRELATION * (t - mean)) / swing)
}

/**
 * Tables for a climate. Where a month is darker than twice the climate's floor, its floor is half its mean. RangeError
 * where no law has the asked mean or persistence (mean clearness 0.01 to 0.8, persistence −0.5 to 0.9).
 */
export function prepareGenerator(climate: Climate, law: ClearnessLawName = 'bendt'): Generator {
  const tables = climate.clearness.map((mean) =>
    scoreTable(clearnessLaw(law, mean, Math.min(climate.floor, mean / 2))),
  )
  const clearnessByScore = new Float64Array(12 * ROW)
  for (const [month, table] of tables.entries()) clearnessByScore.set(table, month * ROW)
  const temperature_C = dailyFromMonthly(climate.temperature_C)
  return {
    clearnessByScore,
    scoreLagOne: Float64Array.from(tables, (table) => scoreLagOne(table, climate.persistence)),
    meanClearness: Float64Array.from(climate.clearness),
    temperature_C,
    dailyRange_K: dailyFromMonthly(climate.dailyRange_K),
    temperatureWithScore: seasonalCorrelation(temperature_C),
    dailyDeviation_K: climate.dailyDeviation_K,
    temperatureLagOne: climate.temperaturePersistence,
    monthOfDay: Uint8Array.from(MONTH_OF_DAY),
  }
}

/** One run of weather: `start`, then `nextDay` for each day in order; the day's values are in the fields. */
export class WeatherPath {
  clearness = 0
  meanTemperature_C = 0
  /** Daily maximum less minimum. */
  range_K = 0
  private readonly tables: Generator
  private readonly innovation: Float64Array
  private stream: Stream | null = null
  private score = 0
  private ownDeviation = 0

  constructor(generator: Generator) {
    this.tables = generator
    this.innovation = generator.scoreLagOne.map((phi) => Math.sqrt(1 - phi * phi))
  }

  /** Begins a new run in the stationary state. */
  start(stream: Stream): void {
    this.stream = stream
    this.score = normalQuantileFast(stream.uniform())
    this.ownDeviation = normalQuantileFast(stream.uniform())
  }

  /** Draws day 0..364. */
  nextDay(day: number): void {
    const { tables, stream } = this
    if (stream === null) throw new Error('a weather path must be started before its first day')
    const month = tables.monthOfDay[day]
    this.score =
      tables.scoreLagOne[month] * this.score + this.innovation[month] * normalQuantileFast(stream.uniform())
    this.clearness = clearnessAt(tables.clearnessByScore, month, this.score)

    const phi = tables.temperatureLagOne
    this.ownDeviation =
      phi * this.ownDeviation + Math.sqrt(1 - phi * phi) * normalQuantileFast(stream.uniform())
    const shared = tables.temperatureWithScore[day]
    const deviation = shared * this.score + Math.sqrt(1 - shared * shared) * this.ownDeviation
    this.meanTemperature_C = tables.temperature_C[day] + tables.dailyDeviation_K * deviation

    const relative = this.clearness / tables.meanClearness[month] - 1
    this.range_K = tables.dailyRange_K[day] * (1 + RANGE_WITH_CLEARNESS * relative)
  }
}

/** Linear between the nodes of the month's row. */
function clearnessAt(rows: Float64Array, month: number, score: number): number {
  const position = (score + SCORE_LIMIT) * (SCORE_CELLS / (2 * SCORE_LIMIT))
  const inside = Math.min(Math.max(position, 0), SCORE_CELLS - 1e-9)
  const cell = Math.floor(inside)
  const node = month * ROW + cell
  return rows[node] + (rows[node + 1] - rows[node]) * (inside - cell)
}
