/** What is wrong, or doubtful, in an outpost file: data first, so that a terminal, a page and an editor can show it. */

/** Keys and indices from the top of the file, as in `['wake', 'steps', 2, 'for']`. */
export type Path = readonly (string | number)[]

/** Counted from 1, columns in UTF-16 units. */
export interface Position {
  readonly line: number
  readonly column: number
}

export interface Range {
  readonly start: Position
  /** Just behind the last character. */
  readonly end: Position
}

export type Severity = 'error' | 'warning'

/** What a check says; where in the text it stands is found afterwards. */
export interface Finding {
  /** Stable, in kebab case: tests and scripts may rely on it. */
  readonly code: string
  readonly severity: Severity
  readonly message: string
  /** What would have been right there. */
  readonly expected: string
  /** What to do. */
  readonly cure: string
}

export interface Diagnostic extends Finding {
  readonly path: Path
  readonly range: Range
  /** The offending text, one line at most. */
  readonly text: string
  /** The variant in which it shows, null for the file itself. */
  readonly variant: string | null
}

/** A path as people write it: `wake.steps[2].for`. */
export const pathText = (path: Path): string =>
  path.reduce<string>(
    (text, part) => (typeof part === 'number' ? `${text}[${part}]` : text === '' ? part : `${text}.${part}`),
    '',
  )
