/** The numbers behind a figure. */
export interface FigureTable {
  readonly head: readonly string[]
  readonly rows: readonly (readonly (string | number)[])[]
}
