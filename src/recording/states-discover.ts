/**
 * Which levels occur at all: PELT on the stabilised scale, sample by sample where blocks show a change, and on block
 * means over the calm between. What comes out are stretches with a level each; levels.ts gathers them.
 */
import { changePoints } from './change-points.ts'
import type { Stabilised } from './stabilise.ts'
import { describe } from './states-description.ts'
import type { Samples } from './states-samples.ts'
import { meanNearMiddle, SCAN_BLOCK, type Scan } from './states-scan.ts'

export interface Stretch {
  readonly from: number
  readonly to: number
  /** Mean and variance on the stabilised scale. */
  readonly y: number
  readonly variance: number
}

/** Fewer samples in a row are a spike or an edge, not a state. */
export const SHORTEST_STATE = 3
/** The range of 32 normal deviates passes this once in some ten thousand blocks. */
const CALM_RANGE = 7.5
const CALM_STEP = 2
const LONGEST_REGION = 4096
const MOST_CALM_POINTS = 1000

export function discover(samples: Samples, scan: Scan, scale: Stabilised, penalty: number): Stretch[] {
  const means = Float64Array.from(scan.mean_A, (x) => scale.y(x))
  const lively = livelyBlocks(scan, scale, means)
  const found: Stretch[] = []
  for (let b = 0; b < scan.blocks; ) {
    let end = b + 1
    while (end < scan.blocks && lively[end] === lively[b]) end++
    if (lively[b])
      addRegion(found, samples, scale, b * SCAN_BLOCK, Math.min(end * SCAN_BLOCK, samples.count), penalty)
    else addCalm(found, samples, scan, scale, means, b, end, penalty)
    b = end
  }
  return found
}

/** 1 for blocks with a change in or beside them. */
function livelyBlocks(scan: Scan, scale: Stabilised, means: Float64Array): Uint8Array {
  const lively = new Uint8Array(scan.blocks)
  for (let b = 0; b < scan.blocks; b++) {
    const range = scale.y(scan.max_A[b]) - scale.y(scan.min_A[b])
    if (range > CALM_RANGE) lively.fill(1, Math.max(b - 1, 0), b + 2)
    if (b > 0 && Math.abs(means[b] - means[b - 1]) > CALM_STEP) lively.fill(1, b - 1, b + 1)
  }
  return lively
}

function addRegion(
  found: Stretch[],
  samples: Samples,
  scale: Stabilised,
  from: number,
  to: number,
  penalty: number,
): void {
  for (let first = from; first < to; first += LONGEST_REGION) {
    const y = Float64Array.from(samples.read(first, Math.min(first + LONGEST_REGION, to)), (x) =>
      scale.y(x),
    ).filter(Number.isFinite)
    if (y.length < SHORTEST_STATE) continue
    const { changes } = changePoints(y, { penalty, shortest: SHORTEST_STATE })
    addStretches(found, y, changes, first, 1, 0, penalty)
  }
}

/** Blocks from … to − 1 without a sharp change: their means, gathered to not too many, may still step a little. */
function addCalm(
  found: Stretch[],
  samples: Samples,
  scan: Scan,
  scale: Stabilised,
  means: Float64Array,
  from: number,
  to: number,
  penalty: number,
): void {
  const gathered = Math.ceil((to - from) / MOST_CALM_POINTS)
  const points: number[] = []
  for (let b = from; b < to; b += gathered) {
    const group = means.subarray(b, Math.min(b + gathered, to)).filter(Number.isFinite)
    if (group.length > 0) points.push(group.reduce((sum, y) => sum + y, 0) / group.length)
  }
  if (points.length === 0) return
  const slow = scale.slowAt(meanNearMiddle(scan, from * SCAN_BLOCK, to * SCAN_BLOCK))
  // Correlated noise averages out less: twice the deviation of white noise is allowed for.
  const noise = Math.sqrt(4 / SCAN_BLOCK + slow)
  const { changes } = changePoints(points, { penalty, noise })
  addStretches(
    found,
    Float64Array.from(points),
    changes,
    from * SCAN_BLOCK,
    gathered * SCAN_BLOCK,
    1,
    penalty,
    samples.count,
  )
}

function addStretches(
  found: Stretch[],
  y: Float64Array,
  changes: Int32Array,
  first: number,
  size: number,
  hidden: number,
  penalty: number,
  count = Number.POSITIVE_INFINITY,
): void {
  let from = 0
  for (const to of [...changes, y.length]) {
    const part = y.subarray(from, to)
    const { y: level, variance } = describe(part, penalty)
    found.push({
      from: first + from * size,
      to: Math.min(first + to * size, count),
      y: level,
      variance: variance + hidden,
    })
    from = to
  }
}
