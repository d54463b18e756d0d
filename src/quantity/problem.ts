/** What is wrong with the text of a number: data, so that a terminal, an editor and a form can each show it their way. */
export interface QuantityProblem {
  /** Stable, kebab-case. */
  readonly code:
    | 'number-missing'
    | 'number-malformed'
    | 'decimal-comma'
    | 'unit-missing'
    | 'unit-unknown'
    | 'unit-wrong-dimension'
    | 'unit-not-wanted'
    | 'tolerance-malformed'
    | 'range-reversed'
  readonly message: string
  readonly expected: string
  readonly cure: string
  /** Offsets of the offending part of the text; the end is just behind it. */
  readonly start: number
  readonly end: number
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: QuantityProblem }
