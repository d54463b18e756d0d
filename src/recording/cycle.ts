/** One wake and the cycle it begins, and what may be odd about it. Plain data; time in s, charge in C. */

/** States are indices; `place` is the place in the typical wake. */
export type Oddity =
  /** States were gone through again, after a pause or not: a failed join, a retry. */
  | { readonly kind: 'repeated'; readonly states: readonly number[] }
  /** A state lasted longer or shorter than in other wakes. */
  | {
      readonly kind: 'longer' | 'shorter'
      readonly state: number
      readonly place: number
      readonly lasted_s: number
      readonly usual_s: number
    }
  /** The wake ended early: these states did not come. */
  | { readonly kind: 'truncated'; readonly states: readonly number[] }
  /** States that the typical wake does not have there, or that it has and this one lacks. */
  | { readonly kind: 'extra' | 'lacking'; readonly states: readonly number[] }
  /** So many wakes did not come before the next one. */
  | { readonly kind: 'missed'; readonly wakes: number }

export interface Cycle {
  /** Segments of the wake: from … to − 1, as indices into the segments; then it rests. */
  readonly from: number
  readonly to: number
  readonly start_s: number
  /** Whether the wake was measured from its first rise to its last return to rest, but for less than a state lasts. */
  readonly measured: boolean
  /** From the first rise to the last return to rest. */
  readonly work_s: number
  /** To the next wake; null for the last, and where time until then is not known, in which a wake may have hidden. */
  readonly period_s: number | null
  /** Until the next wake; null where the period is, or where more than a hundredth of it may be missing. In C. */
  readonly charge_C: number | null
  /** Charge of the wake itself, as far as it is known. */
  readonly work_C: number
  /** States of the wake in order. */
  readonly sequence: readonly number[]
  readonly odd: readonly Oddity[]
}
