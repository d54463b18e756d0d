/**
 * The cheapest path through known levels: each sample costs its squared distance from its level in deviations, each change
 * a penalty (Viterbi 1967, IEEE Trans. Inf. Theory 13, 260, with one penalty for all changes). Exact: a block of samples is
 * passed over only where the level in force beats all others at every sample and they have nothing left to lose.
 */
import type { Level } from './levels.ts'
import type { Stabilised } from './stabilise.ts'
import { largestCost } from './states-description.ts'
import type { Samples } from './states-samples.ts'
import { SCAN_BLOCK, type Scan } from './states-scan.ts'

export interface Path {
  /** First sample of each segment, rising from 0. */
  readonly starts: Int32Array
  /** Index of its level. */
  readonly levels: Uint16Array
}

export function cheapestPath(
  samples: Samples,
  scan: Scan,
  scale: Stabilised,
  levels: readonly Level[],
  penalty: number,
): Path {
  const walk = new Walk(levels, penalty)
  for (let b = 0; b < scan.blocks; ) {
    if (walk.canPass(scale.y(scan.min_A[b]), scale.y(scan.max_A[b]))) {
      walk.pass()
      b++
      continue
    }
    let end = b + 1
    // A handful of blocks at once, so that few reads are small.
    while (end < scan.blocks && end - b < 8) end++
    b = walkBlocks(samples, scan, scale, walk, b, end)
  }
  return walk.path()
}

/** Walks sample by sample until `end`, or until a block can be passed. Returns the next block. */
function walkBlocks(
  samples: Samples,
  scan: Scan,
  scale: Stabilised,
  walk: Walk,
  from: number,
  end: number,
): number {
  const first = from * SCAN_BLOCK
  const values = samples.read(first, Math.min(end * SCAN_BLOCK, samples.count))
  for (let b = from; b < end; b++) {
    if (b > from && walk.canPass(scale.y(scan.min_A[b]), scale.y(scan.max_A[b]))) return b
    const stop = Math.min((b + 1) * SCAN_BLOCK - first, values.length)
    for (let i = b * SCAN_BLOCK - first; i < stop; i++) {
      const x = values[i]
      if (x - x === 0) walk.step(first + i, scale.y(x))
    }
  }
  return end
}

class Walk {
  private readonly count: number
  private readonly centre: Float64Array
  private readonly precision: Float64Array
  private readonly constant: Float64Array
  /** Between these a level is cheaper than any other. */
  private readonly low: Float64Array
  private readonly high: Float64Array
  private readonly cost: Float64Array
  private readonly penalty: number
  private readonly cap: number
  private best = 0
  // The ends of the paths as a tree of segments: where each began, in which level, after which segment.
  private readonly segment: Int32Array
  private readonly start: number[] = []
  private readonly level: number[] = []
  private readonly before: number[] = []
  private readonly continued: boolean[] = []

  constructor(levels: readonly Level[], penalty: number) {
    this.count = levels.length
    this.penalty = penalty
    this.cap = largestCost(penalty)
    this.centre = Float64Array.from(levels, ({ y }) => y)
    this.precision = Float64Array.from(levels, ({ deviation }) => 1 / deviation ** 2)
    this.constant = Float64Array.from(levels, ({ deviation }) => 2 * Math.log(deviation))
    this.cost = new Float64Array(this.count)
    this.segment = Int32Array.from(levels, (_, k) => this.addSegment(0, k, -1))
    this.low = this.centre.map((_, k) => this.reach(k, -1))
    this.high = this.centre.map((_, k) => this.reach(k, 1))
  }

  step(sample: number, y: number): void {
    const { count, cost, penalty, cap, centre, precision, constant } = this
    const limit = cost[this.best] + penalty
    let best = 0
    for (let k = 0; k < count; k++) {
      if (cost[k] > limit) {
        cost[k] = limit
        this.begin(sample, k)
      }
    }
    for (let k = 0; k < count; k++) {
      const off = y - centre[k]
      const square = off * off * precision[k]
      cost[k] += Math.min(square, cap) + constant[k]
      if (cost[k] < cost[best]) best = k
    }
    this.best = best
  }

  /** Whether samples between these values change nothing: the best level stays best, the others stay at their limit. */
  canPass(low: number, high: number): boolean {
    const { best, cost, count } = this
    if (low < this.low[best] || high > this.high[best]) return false
    const limit = cost[best] + this.penalty
    for (let k = 0; k < count; k++) if (k !== best && cost[k] < limit) return false
    return true
  }

  /** After samples that were passed over, every other level can only be reached by a change from the best one. */
  pass(): void {
    this.cost.fill(Number.POSITIVE_INFINITY)
    this.cost[this.best] = 0
  }

  path(): Path {
    const starts: number[] = []
    const levels: number[] = []
    for (let s = this.segment[this.best]; s >= 0; s = this.before[s]) {
      starts.push(this.start[s])
      levels.push(this.level[s])
    }
    return { starts: Int32Array.from(starts.reverse()), levels: Uint16Array.from(levels.reverse()) }
  }

  /** Level k is entered at a sample, from the best one. */
  private begin(sample: number, k: number): void {
    const parent = this.segment[this.best]
    this.continued[parent] = true
    const own = this.segment[k]
    if (this.continued[own]) {
      this.segment[k] = this.addSegment(sample, k, parent)
    } else {
      this.start[own] = sample
      this.before[own] = parent
    }
  }

  private addSegment(start: number, level: number, before: number): number {
    this.level.push(level)
    this.before.push(before)
    this.continued.push(false)
    return this.start.push(start) - 1
  }

  private reach(k: number, sign: number): number {
    const step = (0.1 * sign) / Math.sqrt(this.precision[k])
    let y = this.centre[k]
    if (!this.cheapest(k, y)) return -sign * Number.MAX_VALUE
    while (this.cheapest(k, y + step)) y += step
    return y
  }

  private cheapest(k: number, y: number): boolean {
    const at = (j: number) => (y - this.centre[j]) ** 2 * this.precision[j]
    const own = at(k)
    if (own >= this.cap) return false
    for (let j = 0; j < this.count; j++)
      if (j !== k && Math.min(at(j), this.cap) + this.constant[j] < own + this.constant[k]) return false
    return true
  }
}
