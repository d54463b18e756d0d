/**
 * Quantile of values in rising order, method R-7 (Hyndman & Fan 1996, definition 7): linear between order statistics.
 * `p` in 0..1; throws RangeError on no values or p outside.
 */
export function quantileSorted(sorted: ArrayLike<number>, p: number): number {
  if (sorted.length === 0) throw new RangeError('no quantile of no values')
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a probability lies between 0 and 1, not ${p}`)
  const place = (sorted.length - 1) * p
  const below = Math.floor(place)
  const above = Math.min(below + 1, sorted.length - 1)
  return sorted[below] + (place - below) * (sorted[above] - sorted[below])
}
