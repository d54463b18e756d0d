/** The main use case: an outpost file in, a forecast out. */
import { basename } from 'node:path'
import { ensembleOf } from '../outlook/ensemble.ts'
import { summarise } from '../outlook/summary.ts'
import { usualSize } from '../outlook/usual-size.ts'
import type { Forecast } from '../report/forecast.ts'
import { forecastOf } from '../report/forecast-of.ts'
import { yearCut } from '../sky/year-cut.ts'
import { type EnsemblePool, ensemblePool } from './ensemble-pool.ts'
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

/** Throws a Refusal, with every problem of the file in its message, where the file cannot be forecast. */
export async function forecastFile(
  source: OutpostSource,
  choices: ForecastChoices,
  playing: Playing,
): Promise<Forecast> {
  const pool = ensemblePool(playing)
  try {
    return await forecastOn(pool, source, choices)
  } finally {
    await pool.close()
  }
}

async function forecastOn(
  pool: EnsemblePool,
  source: OutpostSource,
  choices: ForecastChoices,
): Promise<Forecast> {
  const { path, design, warnings } = await openDesign(source, choices.variant, choices.colour)
  const { outpost, weatherYear: year } = (await intoWeather(choices.weather))(design)
  const rechargeable = outpost.supply.panel !== null && outpost.supply.charger !== null
  const cutDay = yearCut(outpost.place.latitude_deg, outpost.place.climate.clearness)
  const usual = usualSize(outpost)
  const ensemble = ensembleOf(outpost, {
    years: choices.years ?? usual.years,
    runs: choices.runs ?? usual.runs,
    seed: choices.seed,
    stepsPerHour: choices.stepsPerHour,
    cutDay,
    calendarYear: choices.calendarYear,
  })
  const outlook = summarise(await pool.play(ensemble), {
    title: choices.variant === null ? outpost.title : `${outpost.title}: ${choices.variant}`,
    seed: choices.seed,
    aims: outpost.aims,
    rechargeable,
    cutDay,
    scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
    budgetParts: ensemble.budgetParts,
  })

  return forecastOf(design, {
    file: basename(path),
    outlook,
    replay: year === null || !rechargeable ? null : replayOf(ensemble, year),
    warnings,
    outpost,
    weatherYear: year,
    isMoved: choices.weather !== null,
    counted: ensemble,
  })
}
