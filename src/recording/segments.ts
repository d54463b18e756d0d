/** A recording cut at its changes: each segment lies in one state. Plain data; current in A, time in s, charge in C. */

export interface Segments {
  /** The usual step between samples. */
  readonly interval_s: number
  /** First sample of each, rising from 0; a segment ends where the next begins. */
  readonly starts: Int32Array
  /** Index into the states. */
  readonly states: Uint16Array
  /** Time from the first sample of the recording at which each begins, and one more: the end. */
  readonly times_s: Float64Array
  /** Time of each in the hold of a sample that is a number; the rest of its time is not known. */
  readonly covered_s: Float64Array
  /**
   * 1 where the change at which it begins was measured on both sides, but for less than a state lasts; 0 at the ends of the
   * recording, of which there is one more.
   */
  readonly edgeSeen: Uint8Array
  readonly charge_C: Float64Array
  /** Mean over the known samples, without those next to an edge; NaN where none is known. */
  readonly mean_A: Float64Array
}

/** In fewer samples than this no state can hide, and a change is not found more closely: three are the shortest state. */
export const HIDING_SAMPLES = 2.5
/** Nor does what hides in this share of a segment matter. */
const LARGEST_UNKNOWN = 1e-3
/** More than this share of a charge may not be missing, if each segment went on as it was. */
const LARGEST_MISSING = 0.01

type Coverage = Pick<Segments, 'interval_s' | 'times_s' | 'covered_s' | 'edgeSeen'>

/** Whether nothing can have hidden in segments from … to − 1: hardly any time of any of them is unknown. */
export function isCovered(
  { interval_s, times_s, covered_s }: Omit<Coverage, 'edgeSeen'>,
  from: number,
  to: number,
): boolean {
  for (let k = from; k < to; k++) {
    const lasted_s = times_s[k + 1] - times_s[k]
    if (lasted_s - covered_s[k] > Math.max(LARGEST_UNKNOWN * lasted_s, HIDING_SAMPLES * interval_s))
      return false
  }
  return true
}

/** Whether segments from … to − 1 were measured from their first change to their last, with all between. */
export const isWhole = (segments: Coverage, from: number, to: number): boolean =>
  segments.edgeSeen[from] === 1 && segments.edgeSeen[to] === 1 && isCovered(segments, from, to)

/** Charge of segments from … to − 1; null where time that is not known may hold more than a hundredth of it. */
export function chargeOf(segments: Segments, from: number, to: number): number | null {
  const { times_s, covered_s, charge_C, mean_A } = segments
  let sum = 0
  let missing = 0
  for (let k = from; k < to; k++) {
    sum += charge_C[k]
    const unknown_s = times_s[k + 1] - times_s[k] - covered_s[k]
    // Where a mean is of no sample, there is next to no time either.
    if (unknown_s > 0 && mean_A[k] - mean_A[k] === 0) missing += unknown_s * Math.abs(mean_A[k])
  }
  return missing > LARGEST_MISSING * Math.abs(sum) ? null : sum
}
