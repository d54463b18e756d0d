/** A recording cut at its changes: each segment lies in one state. Plain data; current in A, time in s, charge in C. */

export interface Segments {
  /** First sample of each, rising from 0; a segment ends where the next begins. */
  readonly starts: Int32Array
  /** Index into the states. */
  readonly states: Uint16Array
  /** Time from the first sample of the recording at which each begins, and one more: the end. */
  readonly times_s: Float64Array
  readonly charge_C: Float64Array
  /** Mean over the known samples, without those next to an edge; NaN where none is known. */
  readonly mean_A: Float64Array
}
