/** The use case behind `overwinter matters`: an outpost file in, what matters out. */
import { basename } from 'node:path'
import { type Matters, whatMatters } from '../decisions/matters.ts'
import { mattersHorizon_years } from '../decisions/matters-horizon.ts'
import { mattersInputs } from '../decisions/matters-inputs.ts'
import { mendsOf } from '../decisions/matters-mends.ts'
import { type MattersProblem, playRows, type Row } from '../decisions/matters-rows.ts'
import { atBest } from '../outlook/draw.ts'
import { ensembleOf } from '../outlook/ensemble.ts'
import { weatherWords } from '../report/weather-words.ts'
import { yearCut } from '../sky/year-cut.ts'
import { crewFor } from './crew.ts'
import type { ForecastChoices } from './forecast.ts'
import { intoWeather } from './in-weather.ts'
import { type OutpostSource, openDesign } from './open-design.ts'
import type { Playing } from './playing.ts'

export interface MattersChoices
  extends Pick<ForecastChoices, 'years' | 'seed' | 'weather' | 'variant' | 'calendarYear' | 'colour'> {
  readonly rows: number | null
}

export interface MattersReport extends Matters {
  readonly file: string
  readonly title: string
  readonly seed: number
  /** Where it comes from, in words. */
  readonly weather: string
}

/** So many years of device life are played where no number of rows is asked for: a few seconds a thread. */
const USUAL_YEARS = 16_000
const ROWS = { least: 64, most: 512 }
/** Rows handed out at a time; a part of no result. */
const ROWS_A_TASK = 2

/** Throws a Refusal where the file holds no design. */
export async function mattersFile(
  source: OutpostSource,
  choices: MattersChoices,
  playing: Playing,
): Promise<MattersReport> {
  const { path, design } = await openDesign(source, choices.variant, choices.colour)
  const { outpost, weatherYear } = (await intoWeather(choices.weather))(design)
  const problem = problemOf(outpost, choices)
  const rows = problem.ensemble.runs
  const tasks = Array.from({ length: Math.ceil(rows / ROWS_A_TASK) }, (_, i) => ({
    from: i * ROWS_A_TASK,
    to: Math.min((i + 1) * ROWS_A_TASK, rows),
  }))
  const crew = crewFor<MattersProblem, (typeof tasks)[number], Row[]>(
    {
      worker: 'matters-worker',
      isLong: true,
      problem,
      here:
        () =>
        ({ from, to }) =>
          playRows(problem, from, to),
    },
    playing,
  )
  let done = 0
  try {
    const parts = await crew.run(tasks, (part) => {
      done += part.length
      playing.onProgress?.(done, rows)
    })
    const matters = whatMatters(problem, parts.flat())
    const title = choices.variant === null ? outpost.title : `${outpost.title}: ${choices.variant}`
    const weather = weatherWords(weatherYear, choices.weather !== null)
    return { file: basename(path), title, seed: choices.seed, weather, ...matters }
  } finally {
    await crew.close()
  }
}

function problemOf(outpost: MattersProblem['ensemble']['outpost'], choices: MattersChoices): MattersProblem {
  const { seed, calendarYear } = choices
  const rechargeable = outpost.supply.panel !== null && outpost.supply.charger !== null
  const cutDay = yearCut(outpost.place.latitude_deg, outpost.place.climate.clearness)
  const ensemble = ensembleOf(outpost, { seed, calendarYear, cutDay, stepsPerHour: 1, years: 1, runs: 1 })
  const { years, life_years } = rechargeable
    ? { years: choices.years ?? 2, life_years: choices.years ?? 2 }
    : mattersHorizon_years(ensemble, choices.years)
  const columns = 2 + mattersInputs(outpost).length + mendsOf(atBest(outpost)).length
  const affordable = 2 ** Math.floor(Math.log2(USUAL_YEARS / (columns * life_years)))
  const runs = choices.rows ?? Math.min(Math.max(affordable, ROWS.least), ROWS.most)
  return { ensemble: { ...ensemble, years, runs }, rechargeable }
}
