/** Which state of one recording is which of another: the assignment with the least total distance. */
import type { State } from './states-summary.ts'

export interface Pair {
  /** Index of the state before and after; null on one side where it vanished or appeared. */
  readonly before: number | null
  readonly after: number | null
}

/** Distance is the logarithm of the ratio of levels, plus this much of that of dwell times. */
const DWELL_WEIGHT = 0.2
/** A state without a partner costs this much, so states further apart than twice it (a factor of 2.2) are no pair. */
const ALONE = 0.4
/** Levels below this share of the highest are alike as far as logarithms go. */
const LEAST_SHARE = 1e-7

/** Costs more than any number of states without partners. */
const FORBIDDEN = 1e6

/** `known`: two states that are the same however far apart their levels, as the states between wakes are. */
export function matchStates(
  before: readonly State[],
  after: readonly State[],
  known: Pair | null = null,
): Pair[] {
  const highest = Math.max(...[...before, ...after].map(({ mean_A }) => Math.abs(mean_A)))
  const logLevel = ({ mean_A }: State) => Math.log(Math.max(mean_A, LEAST_SHARE * highest))
  const size = before.length + after.length
  // Each state also has a place of its own to be alone in.
  const cost = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => {
      const [a, b] = [before[i], after[j]]
      if (known !== null && (i === known.before) !== (j === known.after)) return FORBIDDEN
      if (a === undefined && b === undefined) return 0
      if (a === undefined || b === undefined) return ALONE
      const level = Math.abs(logLevel(a) - logLevel(b))
      const dwell = a.dwell && b.dwell ? Math.abs(Math.log(a.dwell.median_s / b.dwell.median_s)) : 0
      return level + DWELL_WEIGHT * dwell
    }),
  )
  const partner = cheapestAssignment(cost)
  const pairs: Pair[] = before.map((_, i) => ({
    before: i,
    after: partner[i] < after.length ? partner[i] : null,
  }))
  const taken = new Set(pairs.map((pair) => pair.after))
  after.forEach((_, j) => {
    if (!taken.has(j)) pairs.push({ before: null, after: j })
  })
  return pairs
}

/**
 * Column of each row in the assignment with the least sum, for a square matrix of finite costs: the Hungarian method with
 * shortest augmenting paths (Kuhn 1955; Jonker & Volgenant 1987), O(n³).
 */
export function cheapestAssignment(cost: readonly (readonly number[])[]): number[] {
  const n = cost.length
  const rowPrice = new Float64Array(n + 1)
  const columnPrice = new Float64Array(n + 1)
  // Row of each column; column n stands for the start of the path.
  const rowOf = new Int32Array(n + 1).fill(-1)
  for (let row = 0; row < n; row++) {
    const least = new Float64Array(n).fill(Number.POSITIVE_INFINITY)
    const came = new Int32Array(n).fill(n)
    const done = new Uint8Array(n + 1)
    rowOf[n] = row
    let column = n
    while (rowOf[column] !== -1) {
      done[column] = 1
      const here = rowOf[column]
      let next = -1
      for (let j = 0; j < n; j++) {
        if (done[j]) continue
        const reduced = cost[here][j] - rowPrice[here] - columnPrice[j]
        if (reduced < least[j]) {
          least[j] = reduced
          came[j] = column
        }
        if (next === -1 || least[j] < least[next]) next = j
      }
      const step = least[next]
      for (let j = 0; j <= n; j++) {
        if (done[j]) {
          rowPrice[rowOf[j]] += step
          columnPrice[j] -= step
        } else least[j] -= step
      }
      column = next
    }
    while (column !== n) {
      rowOf[column] = rowOf[came[column]]
      column = came[column]
    }
  }
  const assigned = new Array<number>(n)
  for (let j = 0; j < n; j++) assigned[rowOf[j]] = j
  return assigned
}
