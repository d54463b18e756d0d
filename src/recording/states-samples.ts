/** Samples as the analysis of states reads them: from a recording, or straight from an array. */
import { readBlock, readCurrent, timeOfSample } from './access.ts'
import { BLOCK_SAMPLES, type Recording } from './recording.ts'

export interface Samples {
  readonly count: number
  /** The usual step between samples, in s. */
  readonly interval_s: number
  /** Samples from … to − 1 in A; what is not finite is missing. */
  read(from: number, to: number): Float32Array | Float64Array
  /** Holds of samples from … to − 1 in s; null when each is `interval_s`. */
  holds_s(from: number, to: number): Float64Array | null
  /** Time at which a sample begins; for `count`, the end. In s from the first sample. */
  time_s(sample: number): number
}

/** Evenly sampled current. Throws RangeError on no samples or a step that is not above zero. */
export function samplesOf(current_A: Float32Array | Float64Array, interval_s: number): Samples {
  if (current_A.length === 0) throw new RangeError('no samples to analyse')
  if (!(interval_s > 0)) throw new RangeError(`a step between samples is above zero, not ${interval_s} s`)
  return {
    count: current_A.length,
    interval_s,
    read: (from, to) => current_A.subarray(from, to),
    holds_s: () => null,
    time_s: (sample) => sample * interval_s,
  }
}

/** The samples of a recording, read block by block when they are asked for. */
export function samplesOfRecording(recording: Recording): Samples {
  const { samples, interval_s, duration_s, even } = recording.header
  return {
    count: samples,
    interval_s,
    read: (from, to) => readCurrent(recording, from, to),
    holds_s: (from, to) => (even ? null : readHolds(recording, from, to)),
    time_s: (sample) => (sample >= samples ? duration_s : timeOfSample(recording, sample)),
  }
}

function readHolds(recording: Recording, from: number, to: number): Float64Array {
  const holds = new Float64Array(to - from)
  for (let i = from; i < to; ) {
    const block = Math.floor(i / BLOCK_SAMPLES)
    const first = block * BLOCK_SAMPLES
    const { holds_s, interval_s, current_A } = readBlock(recording, block)
    const end = Math.min(to, first + current_A.length)
    if (holds_s === null) holds.fill(interval_s, i - from, end - from)
    else holds.set(holds_s.subarray(i - first, end - first), i - from)
    i = end
  }
  return holds
}

/** Calls `visit` with the samples from … to − 1 in stretches that fit into memory. */
export function eachStretch(
  samples: Samples,
  from: number,
  to: number,
  visit: (values: Float32Array | Float64Array, first: number) => void,
): void {
  for (let first = from; first < to; first += BLOCK_SAMPLES)
    visit(samples.read(first, Math.min(first + BLOCK_SAMPLES, to)), first)
}
