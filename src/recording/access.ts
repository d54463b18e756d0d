/** Reading a recording by sample and by time. Only the blocks asked for are read. */
import type { TimedBlock } from './block.ts'
import { BLOCK_FIELDS, blockCount, blockField, blockOfSample, FIELD } from './layout.ts'
import { BLOCK_SAMPLES, type Recording } from './recording.ts'

/** A block with its samples, times and holds. */
export function readBlock(recording: Recording, block: number): TimedBlock {
  const count = blockField(recording, block, 'count')
  const interval_s = blockField(recording, block, 'interval_s')
  const first = block * BLOCK_SAMPLES
  const timing = interval_s === 0 ? readTiming(recording, block, count) : { times_s: null, holds_s: null }
  return {
    current_A: readCurrent(recording, first, first + count),
    voltage_V: readVoltage(recording, first, first + count),
    start_s: blockField(recording, block, 'start_s'),
    interval_s,
    ...timing,
  }
}

/** Samples from … to − 1 in A; NaN where the source had no number. Throws RangeError outside the recording. */
export function readCurrent(recording: Recording, from: number, to: number): Float32Array<ArrayBuffer> {
  checkRange(recording, from, to)
  const bytes = recording.parts.read('current', 4 * from, 4 * (to - from))
  return new Float32Array(bytes.buffer, bytes.byteOffset, to - from)
}

/** As `readCurrent`, in V; null where the recording has no voltage. */
export function readVoltage(
  recording: Recording,
  from: number,
  to: number,
): Float32Array<ArrayBuffer> | null {
  checkRange(recording, from, to)
  if (!recording.header.hasVoltage) return null
  const bytes = recording.parts.read('voltage', 4 * from, 4 * (to - from))
  return new Float32Array(bytes.buffer, bytes.byteOffset, to - from)
}

function readTiming(recording: Recording, block: number, count: number) {
  const bytes = recording.parts.read('times', blockField(recording, block, 'timesByte'), 16 * count)
  const both = new Float64Array(bytes.buffer, bytes.byteOffset, 2 * count)
  return { times_s: both.subarray(0, count), holds_s: both.subarray(count) }
}

/** Time of a sample in s; for many at once read the block. */
export function timeOfSample(recording: Recording, sample: number): number {
  const block = blockOfSample(recording, sample)
  const interval_s = blockField(recording, block, 'interval_s')
  const k = sample - block * BLOCK_SAMPLES
  if (interval_s > 0) return blockField(recording, block, 'start_s') + k * interval_s
  const bytes = recording.parts.read('times', blockField(recording, block, 'timesByte') + 8 * k, 8)
  return new Float64Array(bytes.buffer, bytes.byteOffset, 1)[0]
}

/** Last block that starts at or before a time; the first block for times before all. */
export function blockAtTime(recording: Recording, time_s: number): number {
  const { table } = recording
  let low = 0
  let high = blockCount(recording) - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (table[middle * BLOCK_FIELDS + FIELD.start_s] <= time_s) low = middle
    else high = middle - 1
  }
  return low
}

/** Last sample of a block that starts at or before a time, counted within the block; 0 for earlier times. */
export function placeInBlock(block: TimedBlock, time_s: number): number {
  const last = block.current_A.length - 1
  const { times_s } = block
  if (times_s === null) {
    const place = Math.floor((time_s - block.start_s) / block.interval_s)
    return Math.min(Math.max(place, 0), last)
  }
  let low = 0
  let high = last
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (times_s[middle] <= time_s) low = middle
    else high = middle - 1
  }
  return low
}

/** Last sample that starts at or before a time; 0 for times before all. */
export function sampleAtTime(recording: Recording, time_s: number): number {
  const block = blockAtTime(recording, time_s)
  return block * BLOCK_SAMPLES + placeInBlock(readBlock(recording, block), time_s)
}

function checkRange(recording: Recording, from: number, to: number): void {
  if (
    !Number.isInteger(from) ||
    !Number.isInteger(to) ||
    from < 0 ||
    to < from ||
    to > recording.header.samples
  )
    throw new RangeError(`samples ${from} to ${to} are not within 0 to ${recording.header.samples}`)
}
