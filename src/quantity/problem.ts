/** What parsing gives back: a value, or what is wrong, where, what was expected and what to do about it. */

export interface QuantityProblem {
  /** Stable, in kebab case: tests and scripts may rely on it. */
  readonly code:
    | 'number-missing'
    | 'number-malformed'
    | 'number-too-large'
    | 'decimal-comma'
    | 'unit-missing'
    | 'unit-unknown'
    | 'unit-wrong-dimension'
    | 'unit-ambiguous'
    | 'unit-not-wanted'
    | 'tolerance-malformed'
    | 'tolerance-not-positive'
    | 'range-reversed'
    | 'range-empty'
    | 'interval-misplaced'
    | 'limit-not-positive'
  readonly message: string
  readonly expected: string
  readonly cure: string
  /** Offsets of the offending part in the text; `end` is just behind its last character. */
  readonly start: number
  readonly end: number
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: QuantityProblem }

export const parsed = <T>(value: T): Parsed<T> => ({ ok: true, value })

export const failed = (problem: QuantityProblem): Parsed<never> => ({ ok: false, problem })
