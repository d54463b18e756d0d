/** What a source leaves open: its message says so with a cure, `wanted` what else could be said to settle it. */

/** Which column is the current or the time, in which unit a column is, and how many amperes a count is. */
export type Wanted = 'current column' | 'time column' | 'unit' | 'scale'

export class UnclearSource extends Error {
  readonly wanted: readonly Wanted[]

  constructor(message: string, wanted: readonly Wanted[]) {
    super(message)
    this.wanted = wanted
  }
}
