/** The numbers behind a figure. */
export interface FigureTable {
  /** With units. */
  readonly head: readonly string[]
  /** Numbers are shown as the reader writes them and saved with a decimal point; text stands as it is. */
  readonly rows: readonly (readonly (string | number)[])[]
}

/** A number of a table with no more digits than tell anything; an empty cell where there is none. */
export const plain = (value: number | null, digits = 6): number | string =>
  value === null ? '' : Number(value.toPrecision(digits))
