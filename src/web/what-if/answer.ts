/** The worker's answers as a generator: what the text says, then its outlook with more and more runs. Pure. */
import { usualSize } from '../../outlook/usual-size.ts'
import { whatIf } from '../../outlook/what-if.ts'
import type { WhatIfMemory } from '../../outlook/what-if-memory.ts'
import { pathText } from '../../outpost/file/diagnostic.ts'
import { newOutpost } from '../../outpost/file/new.ts'
import { type Design, readOutpost } from '../../outpost/file/read.ts'
import { forecastOf } from '../../report/forecast-of.ts'
import { yearCut } from '../../sky/year-cut.ts'
import type { Answer, Question, Sentence } from './messages.ts'

/** So many at least; more where an aim needs them to be answered. */
const RUNS = 200

/** A look at the outlook so far costs a few milliseconds: it is taken only where it will be told. */
export interface Portion {
  /** Runs still to play. */
  readonly left: number
  readonly look: () => Answer
}

/**
 * First what was read, then after each portion of runs a look at the outlook. `runsNow` says how many runs to play before
 * the next; whoever drives the generator leaves off when a newer question has come.
 */
export function* answersTo(
  question: Question,
  memory: WhatIfMemory,
  runsNow: () => number,
): Generator<Answer | Portion> {
  const { id, text, files, variant, seed, calendarYear } = question
  // Each variant asks for its file.
  const wanted = new Set<string>()
  const read = readOutpost(text, {
    weather: (name) => {
      if (files[name] === undefined) wanted.add(name)
      return files[name] ?? null
    },
  })
  const design: Design | undefined = !read.ok
    ? undefined
    : variant === null
      ? read
      : read.variants.find(({ name }) => name === variant)
  yield {
    id,
    kind: 'read',
    diagnostics: read.ok ? read.warnings : read.diagnostics,
    variants: read.ok ? read.variants.map(({ name }) => name) : [],
    wanted: [...wanted],
    outpost: design?.outpost ?? null,
    assumptions: (design?.assumptions ?? []).map(({ path, text: words, source }) => ({
      path: pathText(path),
      text: words,
      source,
    })),
  }
  if (!read.ok || design === undefined) return
  const { outpost, weatherYear } = design
  const { place } = outpost
  const usual = usualSize(outpost)
  const choices = {
    runs: Math.max(RUNS, usual.runs),
    years: usual.years,
    seed,
    cutDay: yearCut(place.latitude_deg, place.climate.clearness),
    calendarYear,
    title: variant === null ? outpost.title : `${outpost.title}: ${variant}`,
  }
  const playing = whatIf(outpost, choices, memory)
  const forecastNow = () =>
    forecastOf(design, {
      file: question.file,
      outlook: playing.outlook(),
      replay: null,
      warnings: read.warnings.filter((each) => each.variant === null || each.variant === variant),
      outpost,
      weatherYear,
      isMoved: false,
      counted: { calendarYear, stepsPerHour: 1 },
    })
  while (playing.played < playing.runs) {
    playing.play(runsNow())
    const left = playing.runs - playing.played
    yield { left, look: () => ({ id, kind: 'forecast', isWhole: left === 0, forecast: forecastNow() }) }
  }
}

/** The file that a sentence makes, or what is wrong with its blanks. */
export function writtenFrom({ id, blanks }: Sentence): Answer {
  const made = newOutpost(blanks)
  return made.ok
    ? { id, kind: 'written', text: made.text, problems: [] }
    : { id, kind: 'written', text: null, problems: made.problems }
}
