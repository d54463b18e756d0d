/** The whole trace as one row of columns: the highest current of each, on a logarithmic scale. */
import type { View } from '../recording/view.ts'
import { columnChart } from './recording-histogram.ts'

/** The lowest column still shows. */
const LOWEST = 1 / 8

export function traceLine({ max_A }: Pick<View, 'max_A'>): string {
  const known = max_A.filter((x) => x > 0)
  const low = Math.log(known.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY))
  const high = Math.log(known.reduce((a, b) => Math.max(a, b), 0))
  const height = (x: number) =>
    high > low ? LOWEST + (1 - LOWEST) * ((Math.log(x) - low) / (high - low)) : 1
  return columnChart(Array.from(max_A, (x) => (x > 0 ? height(x) : 0)))
}
