/** The main use case: an outpost file in, a forecast out. */
import { basename } from 'node:path'
import { atBest } from '../outlook/draw.ts'
import { ensembleOf, wakesOf } from '../outlook/ensemble.ts'
import { summarise } from '../outlook/summary.ts'
import { pathText } from '../outpost/file/diagnostic.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Forecast } from '../report/forecast.ts'
import type { WeatherYear } from '../sky/place.ts'
import { yearCut } from '../sky/year-cut.ts'
import { cautionsFor } from '../supply/cautions.ts'
import { sourceOf } from '../supply/cell-catalogue.ts'
import { momentsOf } from '../wake/moments.ts'
import { waveOf } from '../wake/wave.ts'
import { playEnsemble } from './ensemble-pool.ts'
import { intoWeather } from './in-weather.ts'
import { type OutpostSource, openDesign } from './open-design.ts'
import type { Playing } from './playing.ts'
import { replayOf } from './replay.ts'

export interface ForecastChoices {
  readonly years: number | null
  readonly runs: number | null
  readonly seed: number
  readonly stepsPerHour: number
  /** A weather file that takes the place of the outpost's own sky. */
  readonly weather: string | null
  readonly variant: string | null
  /** The calendar year whose clock changes hold. */
  readonly calendarYear: number
  readonly colour: boolean
}

/** Runs and years where none are asked for: with a panel many winters count, without one a whole life. */
const USUAL = { panel: { runs: 200, years: 10 }, alone: { runs: 100, years: 15 } }
const Z95_SQUARED = 3.8415
/** A stricter aim than this would want more runs than anyone waits for. */
const MOST_SHARE = 0.995
/** A life is followed for so much longer than it is aimed at. */
const BEYOND_AIM = 1.5

/** Throws a Refusal, with every problem of the file in its message, where the file cannot be forecast. */
export async function forecastFile(
  source: OutpostSource,
  choices: ForecastChoices,
  playing: Playing,
): Promise<Forecast> {
  const { path, design, warnings } = await openDesign(source, choices.variant, choices.colour)
  const { outpost, weatherYear: year } = (await intoWeather(choices.weather))(design)
  const rechargeable = outpost.supply.panel !== null && outpost.supply.charger !== null
  const cutDay = yearCut(outpost.place.latitude_deg, outpost.place.climate.clearness)
  const ensemble = ensembleOf(outpost, {
    ...sizeOf(outpost, rechargeable, choices),
    seed: choices.seed,
    stepsPerHour: choices.stepsPerHour,
    cutDay,
    calendarYear: choices.calendarYear,
  })
  const outlook = summarise(await playEnsemble(ensemble, playing), {
    title: choices.variant === null ? outpost.title : `${outpost.title}: ${choices.variant}`,
    seed: choices.seed,
    aims: outpost.aims,
    rechargeable,
    cutDay,
    scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
    budgetParts: ensemble.budgetParts,
  })

  const best = atBest(outpost)
  const { total } = momentsOf(best.wake)
  const { cell } = outpost.supply.pack
  return {
    file: basename(path),
    outlook,
    wave: waveOf(best.wake),
    wake: {
      duration_s: total.duration_s,
      charge_C: total.charge_C,
      deviation_C: Math.sqrt(total.chargeVariance_C2),
    },
    wakesPerDay: wakesOf(best.wake, best.place, ensemble)[0].wakesPerDay,
    capacity_C: best.supply.pack.capacity_C * best.supply.pack.parallel,
    weather: weatherWords(year, choices.weather !== null),
    replay: year === null || !rechargeable ? null : replayOf(ensemble, year),
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

function sizeOf({ aims }: Outpost, rechargeable: boolean, { years, runs }: ForecastChoices) {
  const usual = rechargeable ? USUAL.panel : USUAL.alone
  const aimed = aims.years === null ? 0 : Math.ceil(aims.years * (rechargeable ? 1 : BEYOND_AIM))
  // So many that an aim can be answered with yes where nothing goes wrong: Wilson's lower bound for n of n is n/(n + z²).
  const share = Math.min(aims.winters ?? 0, MOST_SHARE)
  const needed = Math.ceil((Z95_SQUARED * share) / (1 - share)) + 1
  return { years: years ?? Math.max(usual.years, aimed), runs: runs ?? Math.max(usual.runs, needed) }
}

function weatherWords(year: WeatherYear | null, moved: boolean): string {
  if (year === null) return 'drawn from the climate of the place'
  return `drawn from a climate fitted to ${year.title}${moved ? ', in whose place the outpost is taken to stand' : ''}`
}
