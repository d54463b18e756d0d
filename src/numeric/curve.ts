/** A function given by points and straight lines between them, plain data so that threads and files can carry it. */

export interface Curve {
  /** Strictly rising. */
  readonly x: readonly number[]
  readonly y: readonly number[]
}

/** Value at `x`, linear between points and held constant beyond the ends. */
export function valueAt(curve: Curve, x: number): number {
  const { x: xs, y: ys } = curve
  const last = xs.length - 1
  if (x <= xs[0]) return ys[0]
  if (x >= xs[last]) return ys[last]
  let low = 0
  let high = last
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (xs[middle] <= x) low = middle
    else high = middle
  }
  return ys[low] + ((ys[high] - ys[low]) * (x - xs[low])) / (xs[high] - xs[low])
}

/** The curve as a curve: throws on fewer than two points, unequal lengths, or x that does not rise. */
export function curve(x: readonly number[], y: readonly number[]): Curve {
  if (x.length !== y.length || x.length < 2)
    throw new RangeError(`a curve needs two or more points, x and y alike: got ${x.length} and ${y.length}`)
  for (let i = 1; i < x.length; i++)
    if (!(x[i] > x[i - 1])) throw new RangeError(`a curve's x must rise: x[${i}] = ${x[i]} after ${x[i - 1]}`)
  return { x, y }
}
