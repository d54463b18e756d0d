/** What each segment adds up to, in one pass over the samples. */
import { CompensatedSum } from '../numeric/sum.ts'
import { HIDING_SAMPLES } from './segments.ts'
import type { Path } from './states-path.ts'
import { eachStretch, type Samples } from './states-samples.ts'

export interface MeasuredSegments {
  readonly interval_s: number
  readonly times_s: Float64Array
  readonly covered_s: Float64Array
  readonly edgeSeen: Uint8Array
  readonly charge_C: Float64Array
  readonly mean_A: Float64Array
  /** Samples that the mean is of. */
  readonly counts: Float64Array
  /** Sum of squares about the mean, in A². */
  readonly squares_A2: Float64Array
  readonly min_A: Float64Array
  readonly max_A: Float64Array
  /** The same for means of 8, 64 and 512 samples in a row, one array each; then how many such means there were. */
  readonly batchSquares_A2: readonly Float64Array[]
  readonly batchCounts: readonly Float64Array[]
}

/** Samples left out next to an edge: the change lies in the hold of one, and is found to within two. */
const GUARD = 2
/** In a segment shorter than this nothing is left out. */
const SHORTEST_GUARDED = 12
/** Means of batches of 8, 64 and 512 samples show how far noise hangs together (Flyvbjerg & Petersen 1989). */
export const BATCH = 8
const BATCH_DEPTH = 3

export function measureSegments(samples: Samples, path: Path): MeasuredSegments {
  const { starts } = path
  const many = () => new Float64Array(starts.length)
  const measured: MeasuredSegments = {
    interval_s: samples.interval_s,
    times_s: new Float64Array(starts.length + 1),
    covered_s: many(),
    edgeSeen: new Uint8Array(starts.length + 1),
    charge_C: many(),
    mean_A: many(),
    counts: many(),
    squares_A2: many(),
    min_A: many().fill(Number.NaN),
    max_A: many().fill(Number.NaN),
    batchSquares_A2: Array.from({ length: BATCH_DEPTH }, many),
    batchCounts: Array.from({ length: BATCH_DEPTH }, many),
  }
  for (let k = 0; k <= starts.length; k++)
    measured.times_s[k] = samples.time_s(k < starts.length ? starts[k] : samples.count)
  for (let k = 0; k < starts.length; k++) {
    const to = k + 1 < starts.length ? starts[k + 1] : samples.count
    measureOne(measured, samples, k, starts[k], to)
    if (to < samples.count && endIsKnown(samples, to)) measured.edgeSeen[k + 1] = 1
  }
  return measured
}

/** Whether a sample that is a number holds until the change, or so nearly that the change is as good as seen. */
function endIsKnown(samples: Samples, to: number): boolean {
  const from = Math.max(to - Math.ceil(HIDING_SAMPLES), 0)
  const last = from + samples.read(from, to).findLastIndex((x) => x - x === 0)
  if (last < from) return false
  const [hold_s] = samples.holds_s(last, last + 1) ?? [samples.interval_s]
  return samples.time_s(to) - samples.time_s(last) - hold_s <= HIDING_SAMPLES * samples.interval_s
}

function measureOne(measured: MeasuredSegments, samples: Samples, k: number, from: number, to: number): void {
  const guard = to - from < SHORTEST_GUARDED ? 0 : GUARD
  const charge = new CompensatedSum()
  const covered = new CompensatedSum()
  const tally = new Tally()
  const batches = new BatchTally(BATCH_DEPTH)
  eachStretch(samples, from, to, (values, first) => {
    const known = knownOf(samples, values, first)
    charge.add(known.charge_C)
    covered.add(known.covered_s)
    const inner = values.subarray(Math.max(from + guard - first, 0), Math.max(to - guard - first, 0))
    tally.add(inner)
    batches.add(inner)
  })
  measured.charge_C[k] = charge.value
  measured.covered_s[k] = covered.value
  measured.counts[k] = tally.count
  measured.mean_A[k] = tally.mean
  measured.squares_A2[k] = tally.squares
  if (tally.count > 0) {
    measured.min_A[k] = tally.min
    measured.max_A[k] = tally.max
  }
  batches.write(measured, k)
}

/** Charge of the samples that are numbers, and the time that they hold. */
function knownOf(
  samples: Samples,
  values: Float32Array | Float64Array,
  first: number,
): { charge_C: number; covered_s: number } {
  const holds = samples.holds_s(first, first + values.length)
  let charge = 0
  let covered = 0
  for (let i = 0; i < values.length; i++) {
    const x = values[i]
    if (x - x !== 0) continue
    charge += holds === null ? x : x * holds[i]
    covered += holds === null ? 1 : holds[i]
  }
  const each_s = holds === null ? samples.interval_s : 1
  return { charge_C: charge * each_s, covered_s: covered * each_s }
}

/** Sums about the first value, so that squares keep their digits. */
class Tally {
  count = 0
  min = Number.POSITIVE_INFINITY
  max = Number.NEGATIVE_INFINITY
  private origin = Number.NaN
  private sum = 0
  private square = 0

  add(values: Float32Array | Float64Array): void {
    let { count, min, max, origin, sum, square } = this
    for (let i = 0; i < values.length; i++) {
      const x = values[i]
      if (x - x !== 0) continue
      if (count++ === 0) origin = x
      if (x < min) min = x
      if (x > max) max = x
      const off = x - origin
      sum += off
      square += off * off
    }
    this.count = count
    this.min = min
    this.max = max
    this.origin = origin
    this.sum = sum
    this.square = square
  }

  get mean(): number {
    return this.origin + this.sum / this.count
  }

  get squares(): number {
    return this.count === 0 ? 0 : Math.max(this.square - (this.sum * this.sum) / this.count, 0)
  }
}

/** The spread of the means of eight values in a row, and of eight such means, and so on. */
class BatchTally {
  private readonly means = new Tally()
  private readonly one = new Float64Array(1)
  private readonly wider: BatchTally | null
  private sum = 0
  private filled = 0

  constructor(depth: number) {
    this.wider = depth > 1 ? new BatchTally(depth - 1) : null
  }

  add(values: Float32Array | Float64Array): void {
    for (let i = 0; i < values.length; i++) {
      const x = values[i]
      if (x - x !== 0) continue
      this.sum += x
      if (++this.filled < BATCH) continue
      this.one[0] = this.sum / BATCH
      this.means.add(this.one)
      this.wider?.add(this.one)
      this.sum = 0
      this.filled = 0
    }
  }

  /** Into column k of the arrays, narrowest batches first. */
  write(measured: MeasuredSegments, k: number, depth = 0): void {
    measured.batchSquares_A2[depth][k] = this.means.squares
    measured.batchCounts[depth][k] = this.means.count
    this.wider?.write(measured, k, depth + 1)
  }
}
