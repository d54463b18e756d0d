/** The use case of reading a recording: a file of measurements in, what the device does out. */
import { join } from 'node:path'
import { spanQuantiles } from '../recording/distribution.ts'
import type { Instrument, RangeMark } from '../recording/instrument.ts'
import type { Flaw, FlawTotal, Recording, RecordingHeader } from '../recording/recording.ts'
import { type Span, type SpanStatistics, spanStatistics } from '../recording/span.ts'
import { type Analysis, analyse } from '../recording/states.ts'
import { type Samples, samplesOfRecording } from '../recording/states-samples.ts'
import { supplyVoltage } from '../recording/supply-voltage.ts'
import type { RecordingReading } from '../report/recording-reading.ts'
import { readingVerdict } from '../report/recording-words.ts'
import { importRecording, type ReadOptions } from '../store/import-recording.ts'
import type { OpenRecording } from '../store/recording-folder.ts'
import { measuredStates } from './measured-states.ts'
import { type AskedSpan, partOf, type RecordingPart } from './recording-part.ts'
import { Refusal } from './refusal.ts'
import { unreadable } from './text-of.ts'

/** Where recordings are kept, from the folder that one works in. */
export const RECORDINGS = join('.overwinter', 'recordings')

export interface OpenChoices {
  readonly read: ReadOptions
  readonly strict: boolean
  readonly signal: AbortSignal
  readonly onProgress: (doneBytes: number, allBytes: number) => void
  /** Where recordings are kept; by default in the folder that one works in. */
  readonly root?: string
  /** What a Refusal calls the source; by default its path. */
  readonly called?: string
}

/** Imports a source, or opens what was imported before. Throws a Refusal where it is no recording. */
export async function openSource(path: string, choices: OpenChoices): Promise<OpenRecording> {
  try {
    return (await importRecording(path, choices.root ?? RECORDINGS, choices)).recording
  } catch (error) {
    throw refusalOf(path, choices.called ?? path, error)
  }
}

/** Readers say what is wrong with a source by plain errors; anything else is our fault. */
function refusalOf(path: string, called: string, error: unknown): unknown {
  if (!(error instanceof Error) || error.name === 'AbortError') return error
  if ('syscall' in error) {
    const kept = 'path' in error && error.path !== path
    return kept
      ? new Refusal(
          `Recordings are kept in ${RECORDINGS} of this folder, and it cannot be written: ${error.message}.`,
        )
      : unreadable(called, error)
  }
  const expected = error.name === 'Error' || error instanceof RangeError
  if (!expected) return error
  const refusal = new Refusal(`${called} cannot be read: ${error.message}.`)
  refusal.cause = error
  return refusal
}

export interface ReadChoices {
  readonly span: AskedSpan
  readonly voltage_V: number | null
  readonly instrument: Instrument | null
  /** Where the instrument's range was changed by hand, samples from the start of the recording. */
  readonly marks: readonly RangeMark[]
  /** Told how many samples were looked at so far; each is looked at two to four times. */
  readonly onLooked?: (samples: number) => void
}

/** What was read, and what drawings of it need besides. */
export interface ReadRecording {
  readonly reading: RecordingReading
  readonly analysis: Analysis
  readonly samples: Samples
  readonly span: Span
}

/** Throws a Refusal where the span holds nothing, or no sample of it is a number. */
export function readRecording(recording: Recording, choices: ReadChoices): ReadRecording {
  const { header } = recording
  const part = partOf(recording, choices.span)
  const { span } = part
  const samples = choices.onLooked === undefined ? part.samples : counted(part.samples, choices.onLooked)
  const statistics = spanStatistics(recording, span, choices.voltage_V)
  if (statistics.mean_A === null)
    throw new Refusal(`${header.source.name} cannot be read: no sample in it is a number.`)
  const analysis = analysisOf(samples, header, span)
  const measuring = {
    instrument: choices.instrument,
    marks: choices.marks.map(({ sample, range }) => ({ sample: sample - part.firstSample, range })),
    supply_V: supplyVoltage(recording, span, statistics),
  }
  const told = {
    file: header.source.name,
    samples: samples.count,
    interval_s: header.interval_s,
    even: header.even,
    origin: header.origin,
    span: statistics,
    quantiles_A: spanQuantiles(recording, [0.05, 0.5, 0.95], span).values_A,
    ...measuredStates(analysis, measuring, statistics),
    instrument: choices.instrument?.name ?? null,
    cycles: analysis.cycles,
    ...flawsIn(recording, part),
    notes: [...header.notes, ...voltageNotes(header, statistics, choices.voltage_V)],
  }
  return { reading: { ...told, verdict: readingVerdict(told) }, analysis, samples, span }
}

function counted(samples: Samples, onLooked: (samples: number) => void): Samples {
  let looked = 0
  return {
    ...samples,
    read(from, to) {
      looked += to - from
      onLooked(looked)
      return samples.read(from, to)
    },
  }
}

/** Levels are found in stretches of samples, and the engine says by a RangeError where there is none. */
function analysisOf(samples: Samples, header: RecordingHeader, span: Span): Analysis {
  try {
    return analyse(samples, { epoch_s: epochOf(header, span) })
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    throw new Refusal(
      `${header.source.name} is too short to find states in: it has ${samples.count} samples. Record a few wakes.`,
    )
  }
}

function epochOf({ origin }: RecordingHeader, { from_s }: Span): number | null {
  return origin.kind === 'clock' ? origin.epoch_s + from_s : null
}

/** What became of a column of volts, where the reading does not show it. */
function voltageNotes(
  { hasVoltage }: RecordingHeader,
  { energy_J }: SpanStatistics,
  given_V: number | null,
): readonly string[] {
  if (!hasVoltage) return []
  if (given_V !== null) return [`supply of ${given_V} V as given, not from its column`]
  return energy_J === null ? ['no energy, since no sample holds both volts and current'] : []
}

/** Of a part, those that have a place in it, counted anew. */
function flawsIn(recording: Recording, { span, isWhole }: RecordingPart) {
  const { flaws, flawTotals, samples } = recording.header
  const { time_s } = samplesOfRecording(recording)
  const placed = flaws.map((flaw) => {
    const at_s = flaw.sample === null ? null : time_s(Math.min(flaw.sample, samples)) - span.from_s
    return { ...flaw, at_s }
  })
  if (isWhole) return { flaws: placed, flawTotals }
  const inside = placed.filter(({ at_s }) => at_s !== null && at_s >= 0 && at_s < span.to_s - span.from_s)
  const kinds = [...new Set(inside.map(({ kind }) => kind))]
  return {
    flaws: inside,
    flawTotals: kinds.map((kind): FlawTotal => {
      const these = inside.filter((flaw) => flaw.kind === kind)
      const sum = (of: (flaw: Flaw) => number) => these.reduce((total, flaw) => total + of(flaw), 0)
      return {
        kind,
        places: these.length,
        count: sum(({ count }) => count),
        duration_s: sum(({ duration_s }) => duration_s),
      }
    }),
  }
}
