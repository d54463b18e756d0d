/** A recording cut at its changes: each segment lies in one state. Plain data; current in A, time in s, charge in C. */

export interface Segments {
  /** First sample of each, rising from 0; a segment ends where the next begins. */
  readonly starts: Int32Array
  /** Index into the states. */
  readonly states: Uint16Array
  /** Time from the first sample of the recording at which each begins, and one more: the end. */
  readonly times_s: Float64Array
  /** Time of each in the hold of a sample that is a number; the rest of its time is not known. */
  readonly covered_s: Float64Array
  /** 1 where the change at which it begins was measured on both sides; 0 at the ends of the recording, of which there is one more. */
  readonly edgeSeen: Uint8Array
  readonly charge_C: Float64Array
  /** Mean over the known samples, without those next to an edge; NaN where none is known. */
  readonly mean_A: Float64Array
}

/** Up to this share of a segment may be unknown: its charge is then off by no more, if it went on as it was. */
const LARGEST_UNKNOWN = 1e-3

type Coverage = Pick<Segments, 'times_s' | 'covered_s' | 'edgeSeen'>

/** Whether nothing can have hidden in segments from … to − 1: hardly any time of any of them is unknown. */
export function isCovered(
  { times_s, covered_s }: Omit<Coverage, 'edgeSeen'>,
  from: number,
  to: number,
): boolean {
  for (let k = from; k < to; k++) {
    const lasted_s = times_s[k + 1] - times_s[k]
    if (lasted_s - covered_s[k] > LARGEST_UNKNOWN * lasted_s) return false
  }
  return true
}

/** Whether segments from … to − 1 were measured from their first change to their last, with all between. */
export const isWhole = (segments: Coverage, from: number, to: number): boolean =>
  segments.edgeSeen[from] === 1 && segments.edgeSeen[to] === 1 && isCovered(segments, from, to)
