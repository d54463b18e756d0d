/** The use case behind `compare FILE`: an outpost and its variants through the same draws and the same weather. */
import { basename } from 'node:path'
import { breakEvens } from '../decisions/break-even.ts'
import { isRechargeable } from '../decisions/common-runs.ts'
import { differencesOf } from '../decisions/compare-variants.ts'
import { atBest } from '../outlook/draw.ts'
import { type Ensemble, ensembleOf, wakesOf } from '../outlook/ensemble.ts'
import type { RunOutcome } from '../outlook/run.ts'
import { summarise } from '../outlook/summary.ts'
import { emptyTally, mergeTally } from '../outlook/tally.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { VariantsReport } from '../report/variants.ts'
import { weatherWords } from '../report/weather-words.ts'
import { yearCut } from '../sky/year-cut.ts'
import { crewFor } from './crew.ts'
import { intoWeather } from './in-weather.ts'
import { type OutpostSource, openDesign } from './open-design.ts'
import { type PlayedRuns, type Runs, runsPlayer } from './play-runs.ts'
import type { Playing } from './playing.ts'
import { Refusal } from './refusal.ts'

export interface CompareChoices {
  readonly years: number | null
  readonly runs: number
  readonly seed: number
  readonly stepsPerHour: number
  readonly calendarYear: number
  readonly colour: boolean
}

export interface VariantsChoices extends CompareChoices {
  /** A weather file that takes the place of the designs' own sky. */
  readonly weather: string | null
}

/** What the file itself is called beside its variants. */
export const AS_WRITTEN = 'as written'

/** Runs handed out at a time; part of the result, because sums are taken chunk by chunk, in order. */
const CHUNK_RUNS = 20
/** Years where none are asked for: with a panel many winters count, without one a whole life. */
const USUAL_YEARS = { panel: 10, alone: 20 }
/** A life is followed for so much longer than it is aimed at. */
const BEYOND_AIM = 1.5

/** Throws a Refusal where the file cannot be compared: it has errors, or no variants. */
export async function compareVariants(
  source: OutpostSource,
  choices: VariantsChoices,
  playing: Playing,
): Promise<VariantsReport> {
  const { path, design, variants } = await openDesign(source, null, choices.colour)
  if (variants.length === 0)
    throw new Refusal(
      `${path} has no variants to compare.\n  cure: add a section "variants", for example\n    variants:\n      two cells:\n        supply: { cell: { parallel: 2 } }`,
    )
  const moved = await intoWeather(choices.weather)
  const designs = [{ ...design, name: AS_WRITTEN }, ...variants].map(moved)
  const years = choices.years ?? Math.max(...designs.map(({ outpost }) => usualYears(outpost)))
  const ensembles = designs.map(({ outpost }) => ensembleFor(outpost, years, choices))
  const played = await playAll(ensembles, playing)
  const outlooks = ensembles.map((ensemble, i) =>
    summarise(played[i].tally, {
      title: `${design.outpost.title}: ${designs[i].name}`,
      seed: choices.seed,
      aims: ensemble.outpost.aims,
      rechargeable: isRechargeable(ensemble.outpost),
      cutDay: ensemble.cutDay,
      scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
      budgetParts: ensemble.budgetParts,
    }),
  )
  return {
    file: basename(path),
    title: design.outpost.title,
    seed: choices.seed,
    runs: choices.runs,
    years,
    rechargeable: designs.some(({ outpost }) => isRechargeable(outpost)),
    weather: weatherWords(designs[0].weatherYear, choices.weather !== null),
    variants: designs.map(({ name, outpost }, i) => ({
      name,
      outlook: outlooks[i],
      wakesPerDay: wakesPerDay(outpost, ensembles[i]),
      differences: i === 0 ? null : differencesOf(played[0].outcomes, played[i].outcomes),
    })),
    breakEvens: breakEvens(designs, choices.seed),
    keepAllAims: designs.flatMap(({ name }, i) =>
      outlooks[i].aims.every(({ holds }) => holds === 'yes') ? [name] : [],
    ),
  }
}

export function usualYears(outpost: Outpost): number {
  const rechargeable = isRechargeable(outpost)
  const aimed = Math.ceil((outpost.aims.years ?? 0) * (rechargeable ? 1 : BEYOND_AIM))
  return Math.max(rechargeable ? USUAL_YEARS.panel : USUAL_YEARS.alone, aimed)
}

export const ensembleFor = (outpost: Outpost, years: number, choices: CompareChoices): Ensemble =>
  ensembleOf(outpost, {
    years,
    runs: choices.runs,
    seed: choices.seed,
    stepsPerHour: choices.stepsPerHour,
    cutDay: yearCut(outpost.place.latitude_deg, outpost.place.climate.clearness),
    calendarYear: choices.calendarYear,
  })

function wakesPerDay(outpost: Outpost, ensemble: Ensemble): number {
  const { wake, place } = atBest(outpost)
  return wakesOf(wake, place, ensemble)[0].wakesPerDay
}

export async function playAll(ensembles: readonly Ensemble[], playing: Playing) {
  const crew = crewFor<readonly Ensemble[], Runs, PlayedRuns>(
    { worker: 'variant-worker', isLong: true, problem: ensembles, here: () => runsPlayer(ensembles) },
    playing,
  )
  const tasks = ensembles.flatMap(({ runs }, variant) =>
    Array.from({ length: Math.ceil(runs / CHUNK_RUNS) }, (_, i) => ({
      variant,
      from: i * CHUNK_RUNS,
      to: Math.min((i + 1) * CHUNK_RUNS, runs),
    })),
  )
  const of = ensembles.reduce((sum, { runs }) => sum + runs, 0)
  let done = 0
  try {
    const results = await crew.run(tasks, ({ outcomes }) => {
      done += outcomes.length
      playing.onProgress?.(done, of)
    })
    return ensembles.map((ensemble, variant) => {
      const tally = emptyTally(ensemble.years, ensemble.budgetParts.length)
      const outcomes: RunOutcome[] = []
      for (const [i, task] of tasks.entries()) {
        if (task.variant !== variant) continue
        mergeTally(tally, results[i].tally)
        outcomes.push(...results[i].outcomes)
      }
      return { tally, outcomes }
    })
  } finally {
    await crew.close()
  }
}
