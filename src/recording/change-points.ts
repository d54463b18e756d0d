/**
 * Change points of a mean by penalised least squares, exact: PELT, the pruned exact linear time method (Killick, Fearnhead
 * & Eckley 2012, J. Am. Stat. Assoc. 107, 1590) on optimal partitioning (Jackson et al. 2005).
 */

export interface ChangePointOptions {
  /** Added to the cost for every change; zero or more, in squared units of the values. */
  readonly penalty: number
  /** Fewest values between two changes; 1 when not given. */
  readonly shortest?: number
  /** Standard deviation of the noise: squares are divided by its square, and the penalty has no unit. 1 when not given. */
  readonly noise?: number
}

export interface Segmentation {
  /** First value of every segment after the first, rising. */
  readonly changes: Int32Array
  /** Sum of squares about the segments' means (over the noise squared), plus the penalty for each change. */
  readonly cost: number
}

/**
 * The segmentation of `values` (finite numbers) with the least cost; one of them where several cost the same. O(n)
 * memory; time grows with n where changes are spread over the values, at worst with n². Throws RangeError on no values,
 * fewer values than `shortest`, or a negative penalty.
 */
export function changePoints(values: ArrayLike<number>, options: ChangePointOptions): Segmentation {
  const { penalty, shortest = 1, noise = 1 } = options
  const n = values.length
  if (!(penalty >= 0)) throw new RangeError(`a penalty is zero or more, not ${penalty}`)
  if (!(noise > 0)) throw new RangeError(`a noise is above zero, not ${noise}`)
  if (!Number.isInteger(shortest) || shortest < 1 || shortest > n)
    throw new RangeError(`segments of ${shortest} or more do not fit into ${n} values`)
  const { sums, squares } = prefixSums(values, noise)
  const best = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY) // F(t) of Killick et al., eq. 4
  const last = new Int32Array(n + 1)
  // The starts still worth trying, and from which end on each of them is not.
  const starts = new Int32Array(n + 1)
  const retires = new Int32Array(n + 1)
  const costs = new Float64Array(n + 1)
  let alive = 1
  best[0] = -penalty
  retires[0] = n + 1
  for (let end = shortest; end <= n; end++) {
    let least = Number.POSITIVE_INFINITY
    let from = 0
    for (let k = 0; k < alive; k++) {
      const start = starts[k]
      const sum = sums[end] - sums[start]
      const cost = best[start] + squares[end] - squares[start] - (sum * sum) / (end - start)
      costs[k] = cost
      if (cost < least) {
        least = cost
        from = start
      }
    }
    best[end] = least + penalty
    last[end] = from
    let kept = 0
    for (let k = 0; k < alive; k++) {
      // Eq. 5 with K = 0. What follows `end` has at least `shortest` values, so a beaten start lives that much longer.
      if (costs[k] >= best[end] && retires[k] > end + shortest) retires[k] = end + shortest
      if (retires[k] <= end + 1) continue
      starts[kept] = starts[k]
      retires[kept++] = retires[k]
    }
    // The next end has one start more that leaves room for a shortest segment.
    const next = end + 1 - shortest
    if (next >= shortest) {
      starts[kept] = next
      retires[kept++] = n + 1
    }
    alive = kept
  }
  return { changes: walkBack(last, n), cost: best[n] }
}

/** Prefix sums of the values about their mean and of their squares, in units of the noise. */
function prefixSums(values: ArrayLike<number>, noise: number) {
  const n = values.length
  let mean = 0
  for (let i = 0; i < n; i++) mean += values[i] / n
  const sums = new Float64Array(n + 1)
  const squares = new Float64Array(n + 1)
  for (let i = 0; i < n; i++) {
    const centred = (values[i] - mean) / noise
    sums[i + 1] = sums[i] + centred
    squares[i + 1] = squares[i] + centred * centred
  }
  return { sums, squares }
}

function walkBack(last: Int32Array, n: number): Int32Array {
  const changes: number[] = []
  for (let start = last[n]; start > 0; start = last[start]) changes.push(start)
  return Int32Array.from(changes.reverse())
}
