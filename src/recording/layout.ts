/**
 * Where everything lies in the parts of a recording, little-endian; docs/recording-format.md is this file in words.
 * Sample i is in block ⌊i / BLOCK_SAMPLES⌋, and node k of a level holds samples k·size … k·size + size − 1.
 */
import { BLOCK_SAMPLES, type Part, type Recording } from './recording.ts'

/** One number each in a row of the block table. Pairs (`charge`, `chargeLow`) are double-doubles. */
const FIELDS = [
  'firstSample',
  'count',
  'start_s',
  /** End of the last hold. */
  'end_s',
  /** 0 when times and holds are stored one by one. */
  'interval_s',
  /** Samples that are numbers. */
  'valid',
  /** Smallest and largest sample, NaN when none is a number. */
  'min_A',
  'max_A',
  // Sums over all blocks before this one. The row after the last block holds the totals.
  'charge_C',
  'chargeLow_C',
  'square_A2s',
  'squareLow_A2s',
  'energy_J',
  'energyLow_J',
  'covered_s',
  'coveredLow_s',
  'energyCovered_s',
  'energyCoveredLow_s',
  // Where this block starts in its parts.
  'timesByte',
  'histogramByte',
  'histogramEntries',
] as const
export type BlockField = (typeof FIELDS)[number]

export const BLOCK_FIELDS = FIELDS.length

export const FIELD = Object.fromEntries(FIELDS.map((name, k) => [name, k])) as Readonly<
  Record<BlockField, number>
>

/** Samples under one node of each level, finest first. */
export const LEVELS: readonly { readonly part: Part; readonly size: number }[] = [
  { part: 'level-1', size: 64 },
  { part: 'level-2', size: 1024 },
  { part: 'level-3', size: 16384 },
]

/**
 * A node: four float32 (smallest and largest sample in A, charge in C, time covered in s), then its start as float64.
 * Smallest and largest are NaN where no sample is a number.
 */
export const NODE_BYTES = 24

/** A dense cumulative histogram is kept before every so many blocks. */
export const HISTOGRAM_STRIDE = 32

/** Number of blocks; the table has one row more, for the totals. */
export function blockCount(recording: Recording): number {
  return recording.table.length / BLOCK_FIELDS - 1
}

export function blockField(recording: Recording, block: number, field: BlockField): number {
  return recording.table[block * BLOCK_FIELDS + FIELD[field]]
}

/** Block that holds a sample; throws RangeError outside the recording. */
export function blockOfSample(recording: Recording, sample: number): number {
  if (!Number.isInteger(sample) || sample < 0 || sample >= recording.header.samples)
    throw new RangeError(`sample ${sample} is not in 0 to ${recording.header.samples - 1}`)
  return Math.floor(sample / BLOCK_SAMPLES)
}
