/** All that is told of a forecast, from its design and its outlook; wherever the outlook was played. */
import { atBest } from '../outlook/draw.ts'
import { type Ensemble, wakesOf } from '../outlook/ensemble.ts'
import { pathText } from '../outpost/file/diagnostic.ts'
import type { Design } from '../outpost/file/read.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { WeatherYear } from '../sky/place.ts'
import { cautionsFor } from '../supply/cautions.ts'
import { sourceOf } from '../supply/cell-catalogue.ts'
import { momentsOf } from '../wake/moments.ts'
import { waveOf } from '../wake/wave.ts'
import { expectedReports } from './expected-reports.ts'
import type { Forecast } from './forecast.ts'
import { weatherWords } from './weather-words.ts'

export interface ForecastPlayed extends Pick<Forecast, 'file' | 'outlook' | 'replay' | 'warnings'> {
  /** The outpost that was played: the design's own, or moved to where a weather file is from. */
  readonly outpost: Outpost
  readonly weatherYear: WeatherYear | null
  readonly isMoved: boolean
  readonly counted: Pick<Ensemble, 'calendarYear' | 'stepsPerHour'>
}

export function forecastOf(
  design: Pick<Design, 'assumptions' | 'sources'>,
  { file, outlook, replay, warnings, outpost, weatherYear, isMoved, counted }: ForecastPlayed,
): Forecast {
  const best = atBest(outpost)
  const { total } = momentsOf(best.wake)
  const { cell } = outpost.supply.pack
  return {
    file,
    outlook,
    wave: waveOf(best.wake),
    wake: {
      duration_s: total.duration_s,
      charge_C: total.charge_C,
      deviation_C: Math.sqrt(total.chargeVariance_C2),
    },
    wakesPerDay: wakesOf(best.wake, best.place, counted)[0].wakesPerDay,
    reports: expectedReports(outpost, outlook.seed, counted),
    capacity_C: best.supply.pack.capacity_C * best.supply.pack.parallel,
    weather: weatherWords(weatherYear, isMoved),
    replay,
    warnings,
    cautions: cautionsFor(cell.chemistry, cell.name),
    assumptions: [
      ...design.assumptions.map(({ path: at, text, source }) => ({ path: pathText(at), text, source })),
      {
        path: 'supply.cell',
        text: `constants of ${cell.name} (${cell.chemistry})`,
        source: sourceOf(cell.chemistry),
      },
      ...design.sources.map(({ path: at, source }) => ({
        path: pathText(at),
        text: 'as stated in the file',
        source,
      })),
    ],
  }
}
