/** A level and a deviation for a handful of samples, in the terms of the path that is later laid through them. */
import { quantileSorted } from '../numeric/quantile.ts'

/**
 * No sample costs more than this share of the penalty. Two samples far off then cost less than the two changes that
 * would explain them, three cost more: the shortest state has three samples.
 */
const LARGEST_SHARE = 0.8

export const largestCost = (penalty: number): number => LARGEST_SHARE * penalty

export interface Description {
  readonly y: number
  readonly variance: number
}

const MEDIAN_TO_DEVIATION = 1.4826
/** Fewer values have no outliers to speak of. */
const FEWEST_FOR_MEDIAN = 8

/**
 * Mean and variance, or median and the variance that the median distance from it stands for, whichever makes the values
 * cheaper: a converter's rare bursts are outliers, frequent ones a wide state. The first and last value are left out, as a
 * change may lie in their hold. `values` on the stabilised scale, one or more.
 */
export function describe(values: Float64Array, penalty: number): Description {
  const inner = values.length > 4 ? values.subarray(1, -1) : values
  const mean = inner.reduce((sum, value) => sum + value, 0) / inner.length
  const moments = {
    y: mean,
    variance: inner.reduce((sum, value) => sum + (value - mean) ** 2, 0) / inner.length,
  }
  if (inner.length < FEWEST_FOR_MEDIAN || moments.variance <= 1) return moments
  const median = quantileSorted(inner.slice().sort(), 0.5)
  const distances = inner.map((value) => Math.abs(value - median)).sort()
  const robust = { y: median, variance: (MEDIAN_TO_DEVIATION * quantileSorted(distances, 0.5)) ** 2 }
  return cost(inner, robust, penalty) < cost(inner, moments, penalty) ? robust : moments
}

/** As a path through this level would cost; noise is never less than one. */
function cost(values: Float64Array, { y, variance }: Description, penalty: number): number {
  const square = Math.max(variance, 1)
  const cap = largestCost(penalty)
  let sum = 0
  for (const value of values) sum += Math.min((value - y) ** 2 / square, cap)
  return sum + values.length * Math.log(square)
}
