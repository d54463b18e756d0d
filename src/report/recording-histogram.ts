/** Values counted into bins of equal width, and a row of small columns to draw them, or anything else, in a terminal. */
const COLUMNS = [...' ▁▂▃▄▅▆▇█']
const FEWEST_VALUES = 4

export interface Bins {
  readonly low: number
  readonly high: number
  readonly counts: readonly number[]
}

/** Null for too few values to have a distribution, or values that are all the same. */
export function histogramOf(values: readonly number[], bins: number): Bins | null {
  const low = values.reduce((least, x) => Math.min(least, x), Number.POSITIVE_INFINITY)
  const high = values.reduce((most, x) => Math.max(most, x), Number.NEGATIVE_INFINITY)
  if (values.length < FEWEST_VALUES || !(high > low)) return null
  const counts = new Array<number>(bins).fill(0)
  for (const x of values) counts[Math.min(Math.floor(((x - low) / (high - low)) * bins), bins - 1)]++
  return { low, high, counts }
}

/** One character a value, the largest of them full height; anything above zero shows, nothing is blank. */
export function columnChart(heights: readonly number[]): string {
  const most = heights.reduce((largest, x) => Math.max(largest, x), 0)
  return heights
    .map((x) => (x > 0 ? COLUMNS[Math.max(Math.round((x / most) * (COLUMNS.length - 1)), 1)] : ' '))
    .join('')
}
