/** The use case behind `size FILE`: an outpost, and perhaps a list of parts, to what is small enough and still lives. */
import { basename } from 'node:path'
import { isRechargeable } from '../decisions/common-runs.ts'
import { type PartsChoice, partsSpace, partsStudy } from '../decisions/parts-choice.ts'
import { intervalOf } from '../decisions/sizing-axes.ts'
import { runsForCleanSweep } from '../decisions/sizing-evidence.ts'
import { type AskedAxes, type Settings, sizingSpace } from '../decisions/sizing-space.ts'
import { sizingStudy } from '../decisions/sizing-study.ts'
import { usualSize } from '../outlook/usual-size.ts'
import { formatDiagnostic } from '../outpost/file/format-diagnostic.ts'
import { readParts } from '../outpost/file/read-parts.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { PartsList } from '../outpost/parts.ts'
import type { SizingReport } from '../report/sizing.ts'
import { weatherWords } from '../report/weather-words.ts'
import { yearCut } from '../sky/year-cut.ts'
import { cautionsFor } from '../supply/cautions.ts'
import { intoWeather } from './in-weather.ts'
import { type OutpostSource, openDesign } from './open-design.ts'
import { playStudy } from './play-study.ts'
import type { Playing } from './playing.ts'
import { Refusal } from './refusal.ts'
import { axesOf, refuseImpossible } from './size-axes.ts'
import { textOf } from './text-of.ts'

export interface SizeChoices {
  readonly variant: string | null
  /** Null: the share of the file's aims, or the usual. */
  readonly wanted: number | null
  readonly years: number | null
  readonly runs: number | null
  readonly seed: number
  readonly stepsPerHour: number
  readonly calendarYear: number
  /** A weather file that takes the place of the outpost's own sky. */
  readonly weather: string | null
  /** Values of the frontier. */
  readonly axes: AskedAxes
  readonly partsFile: string | null
  readonly objective: string
  readonly colour: boolean
}

/** Where the file states no share. */
const USUAL_SHARE = 0.95
/** A stricter share would want more runs than anyone waits for. */
const MOST_SHARE = 0.995

/** Throws a Refusal where file or parts list cannot be read, or where nothing says how long a cell must last. */
export async function sizeFile(
  source: OutpostSource,
  choices: SizeChoices,
  playing: Playing,
): Promise<SizingReport> {
  const { path, design, refuse } = await openDesign(source, choices.variant, choices.colour)
  const { outpost, weatherYear } = (await intoWeather(choices.weather))(design)
  refuseImpossible(path, outpost, choices.axes)
  const parts = choices.partsFile === null ? null : await openParts(choices.partsFile, choices)
  const rechargeable = isRechargeable(outpost)
  const years =
    choices.years ??
    (rechargeable ? Math.ceil(outpost.aims.years ?? usualSize(outpost).years) : outpost.aims.years)
  if (years === null)
    throw refuse([
      {
        path: ['aims'],
        code: 'aim-needs-years',
        message: 'without a panel, how small a cell may be depends on how long it must last',
        expected: 'aims with years, as in "aims: { years: 2 }", or --years',
        cure: 'add "years: 2" under aims',
      },
    ])
  const wanted = Math.min(choices.wanted ?? outpost.aims.winters ?? USUAL_SHARE, MOST_SHARE)
  const settings: Settings = {
    years,
    seed: choices.seed,
    stepsPerHour: choices.stepsPerHour,
    cutDay: yearCut(outpost.place.latitude_deg, outpost.place.climate.clearness),
    calendarYear: choices.calendarYear,
  }
  const chosen =
    parts === null ? null : await chooseParts(outpost, parts, settings, { ...choices, wanted }, playing)
  const sizing = sizingSpace(outpost, settings, choices.axes)
  const study = await playStudy(sizingStudy(sizing, { wanted, runs: choices.runs }), sizing.space, playing)
  const { cell } = outpost.supply.pack
  return {
    file: basename(path),
    title: choices.variant === null ? outpost.title : `${outpost.title}: ${choices.variant}`,
    seed: choices.seed,
    years,
    wanted,
    rechargeable,
    weather: weatherWords(weatherYear, choices.weather !== null),
    interval_s: intervalOf(outpost),
    cellName: cell.name,
    study,
    frontier: axesOf(sizing, choices.axes),
    parts: chosen,
    cautions: cautionsFor(cell.chemistry, cell.name),
  }
}

async function chooseParts(
  outpost: Outpost,
  parts: PartsList,
  settings: Settings,
  { objective, wanted, runs, partsFile }: SizeChoices & { readonly wanted: number },
  playing: Playing,
): Promise<PartsChoice & { dimension: 'mass' | 'length' | 'count' }> {
  const column = parts.columns.find(({ name }) => name === objective)
  if (column === undefined) {
    const names = parts.columns.map(({ name }) => `"${name}"`).join(', ')
    throw new Refusal(
      `${partsFile}: no column "${objective}" is filled in for every part [unknown-column]\n  expected: ${names === '' ? 'a column of numbers, such as price' : `one of ${names}`}\n  cure: choose one with --objective, or fill it in for every part`,
    )
  }
  if (isRechargeable(outpost) && parts.panels.length === 0)
    throw new Refusal(
      `${partsFile}: the outpost has a panel and the list has none [no-panels]\n  expected: a section "panels"\n  cure: list the panels that could be used, if only the one that is there`,
    )
  const choice = partsSpace(outpost, parts, objective, settings)
  if (choice.combinations.length === 0)
    throw new Refusal(
      `${partsFile}: no cell of the list suits the outpost [no-suitable-cell]\n${choice.unsuited.map(({ cell, why }) => `  ${cell}: ${why}`).join('\n')}\n  cure: list cells of the chemistry that the charger is made for`,
    )
  const sweep = runsForCleanSweep(wanted)
  const standard = { wanted, mostRuns: Math.max(runs ?? 4 * sweep, sweep) }
  return {
    ...(await playStudy(partsStudy(choice, objective, standard), choice.space, playing)),
    dimension: column.dimension,
  }
}

async function openParts(path: string, { colour }: SizeChoices): Promise<PartsList> {
  const text = await textOf(path)
  const read = readParts(text)
  if (read.ok) return read.parts
  throw new Refusal(
    read.diagnostics.map((each) => formatDiagnostic(each, text, { fileName: path, colour })).join('\n\n'),
  )
}
