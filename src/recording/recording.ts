/**
 * A recording: measured current (A) over time (s), perhaps with voltage (V), as plain data. Time 0 is the first sample.
 *
 * A sample is the mean current over its hold: from its own time to the next sample's, or for the usual interval where
 * the next one is late (a gap). Charge is therefore the sum of I·hold, and time in no hold, or held by a sample that
 * is not a number, is missing: every answer about a span says how much.
 *
 * Samples lie in blocks of `BLOCK_SAMPLES`; the last may be shorter. All parts are bytes behind `PartSource`, so the
 * same code reads a recording from memory, from disk and in a browser. Layout: layout.ts and docs/recording-format.md.
 */

export type FlawKind =
  /** No samples for longer than the usual interval explains. */
  | 'gap'
  /** An even clock skipped a whole number of samples. */
  | 'dropped'
  /** Empty, not a number, infinite or overloaded. */
  | 'not-a-number'
  /** The clock stepped back; later times are moved on so that time keeps rising. */
  | 'clock-backwards'
  /** The same extreme value again and again where its neighbours are noisy: the range ended. */
  | 'saturated'
  /** A line that is no sample at all. */
  | 'damaged-line'

export interface Flaw {
  readonly kind: FlawKind
  /** Index of the first sample concerned; for a gap, of the last sample before it. Null when only the line is known. */
  readonly sample: number | null
  /** Line of the source, from 1. Null for sources without lines. */
  readonly line: number | null
  /** Samples (or lines) concerned; for a gap, the samples that would have fitted. */
  readonly count: number
  /** Time concerned, in seconds: missing, stepped back over, or saturated. */
  readonly duration_s: number
  /** What was read there, for a damaged line. */
  readonly text: string | null
}

export interface FlawTotal {
  readonly kind: FlawKind
  /** How many separate places, and how many samples and seconds they concern together. */
  readonly places: number
  readonly count: number
  readonly duration_s: number
}

/** When time 0 was. */
export type Origin =
  /** Seconds since 1970-01-01T00:00Z; `zoned` is false when the source named no zone and UTC was taken. */
  | { readonly kind: 'clock'; readonly epoch_s: number; readonly zoned: boolean }
  /** The source counts from an instant of its own; `first_s` is what it wrote at the first sample. */
  | { readonly kind: 'elapsed'; readonly first_s: number }

export interface RecordingHeader {
  readonly format: 1
  /** Where it came from: a name for people, and what identifies the bytes (docs/recording-format.md). */
  readonly source: { readonly name: string; readonly bytes: number; readonly fingerprint: string }
  readonly samples: number
  /** From time 0 to the end of the last sample's hold. */
  readonly duration_s: number
  /** Time in the hold of a sample that is a number. */
  readonly covered_s: number
  readonly origin: Origin
  /** The usual step between samples: that of the first even block, or the median step of the first block. */
  readonly interval_s: number
  /** True when every block is evenly sampled. */
  readonly even: boolean
  readonly hasVoltage: boolean
  /** The first `FLAWS_KEPT` flaws of each kind in order of place, and totals over all of them. */
  readonly flaws: readonly Flaw[]
  readonly flawTotals: readonly FlawTotal[]
  /** What was taken for what, in sentences: columns, units, assumptions. */
  readonly notes: readonly string[]
}

/** The bytes of one part, e.g. one file; `read` returns a fresh, 8-byte aligned copy or view. */
export interface PartSource {
  read(part: Part, byteOffset: number, byteLength: number): Uint8Array<ArrayBuffer>
}

export interface PartSink {
  append(part: Part, bytes: Uint8Array): void
}

export const PARTS = [
  'current',
  'voltage',
  'times',
  'level-1',
  'level-2',
  'level-3',
  'blocks',
  'histograms',
  'histogram-sums',
] as const
export type Part = (typeof PARTS)[number]

export interface Recording {
  readonly header: RecordingHeader
  /** The block table as Float64, `BLOCK_FIELDS` numbers a row (layout.ts); held in memory, 168 bytes per block. */
  readonly table: Float64Array
  readonly parts: PartSource
}

export const BLOCK_SAMPLES = 65536
export const FLAWS_KEPT = 1000

/** A run of samples as columns, as readers hand them on. */
export interface Columns {
  readonly count: number
  /** Seconds from time 0 as the source states them; null when only the rate is known. */
  readonly time_s: Float64Array | null
  readonly current_A: Float32Array
  readonly voltage_V: Float32Array | null
}

/** Where readers hand on what they read, in order. */
export interface SampleSink {
  columns(columns: Columns): void
  /** `line` from 1, read after `sample` samples. `count` lines in all, of which the first is shown; null when none is. */
  damaged(line: number | null, sample: number, text: string | null, count: number): void
}
