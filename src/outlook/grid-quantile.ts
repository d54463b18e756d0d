/**
 * Quantile of values counted in equal bins: the first bin at which the running count reaches `p` of the total.
 * `counts` is read from `start` for `length` entries; returns the bin's index, or null when nothing was counted.
 */
export function binQuantile(
  counts: ArrayLike<number>,
  start: number,
  length: number,
  p: number,
): number | null {
  let total = 0
  for (let i = 0; i < length; i++) total += counts[start + i]
  if (total === 0) return null
  let running = 0
  for (let i = 0; i < length; i++) {
    running += counts[start + i]
    if (running > 0 && running >= p * total) return i
  }
  return length - 1
}
