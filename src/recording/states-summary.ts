/** From segments to states: means with their uncertainty, dwell times, shares. */
import { quantileSorted } from '../numeric/quantile.ts'
import { CompensatedSum } from '../numeric/sum.ts'
import { isWhole } from './segments.ts'
import type { Stabilised } from './stabilise.ts'
import { BATCH, type MeasuredSegments } from './states-statistics.ts'

/** How long visits last, those cut by the ends of the recording or by time that is not known left out. In s. */
export interface Dwell {
  readonly visits: number
  readonly mean_s: number
  /** With n − 1; 0 for a single visit. */
  readonly deviation_s: number
  readonly p5_s: number
  readonly median_s: number
  readonly p95_s: number
}

export interface State {
  /** Mean over the samples of all visits, without those next to an edge. */
  readonly mean_A: number
  /** Standard uncertainty of the mean from the scatter of samples and visits (type A); the instrument's own is not in it. */
  readonly u_A: number
  /** Standard deviation of a sample within a visit. */
  readonly deviation_A: number
  /** What noise, as neighbouring samples show it at this level, explains of that. */
  readonly noise_A: number
  readonly min_A: number
  readonly max_A: number
  /** Samples that the mean is of, and how many uncorrelated samples would know it as well. */
  readonly samples: number
  readonly effectiveSamples: number
  readonly visits: number
  /** Null where no visit was measured from its beginning to its end. */
  readonly dwell: Dwell | null
  /** Known time, and its share of all that is known. */
  readonly time_s: number
  readonly timeShare: number
  readonly charge_C: number
  readonly chargeShare: number
}

/** A batch size says something about correlation from so many batches on. */
const FEWEST_BATCHES = 12
/** And the scatter between visits from so many visits on. */
const FEWEST_VISITS = 5

/** Hum averages out over a visit as over so many radians of its phase at 50 Hz. */
const HUM_RADIANS_PER_S = Math.PI * 50

/** States by rising mean, and which of them each level of the path is. Levels that no segment has are left out. */
export function summariseStates(
  levels: Uint16Array,
  measured: MeasuredSegments,
  scale: Pick<Stabilised, 'hum_A' | 'deviationAt'>,
): { states: State[]; order: Uint16Array } {
  const segmentsOf: number[][] = []
  levels.forEach((level, k) => {
    segmentsOf[level] ??= []
    segmentsOf[level].push(k)
  })
  const total_s = sumOver(measured.covered_s)
  const total_C = sumOver(measured.charge_C)
  const known = segmentsOf
    .flatMap((segments, level) => [{ level, state: stateOf(segments, measured, total_s, total_C, scale) }])
    .sort((a, b) => a.state.mean_A - b.state.mean_A)
  const order = new Uint16Array(segmentsOf.length)
  known.forEach(({ level }, k) => {
    order[level] = k
  })
  return { states: known.map(({ state }) => state), order }
}

function stateOf(
  segments: readonly number[],
  measured: MeasuredSegments,
  total_s: number,
  total_C: number,
  { hum_A, deviationAt }: Pick<Stabilised, 'hum_A' | 'deviationAt'>,
): State {
  const { counts, mean_A, squares_A2, times_s, covered_s, charge_C, min_A, max_A } = measured
  const known = segments.filter((k) => counts[k] > 0)
  const samples = sumOver(known, (k) => counts[k])
  const mean = sumOver(known, (k) => counts[k] * mean_A[k]) / samples
  const freedom = Math.max(samples - segments.length, 1)
  const variance = sumOver(segments, (k) => squares_A2[k]) / freedom
  const time_s = sumOver(segments, (k) => covered_s[k])
  const scatter = Math.max(
    withinSquare(segments, measured, samples, variance),
    betweenSquare(known, measured, samples, mean),
  )
  // Wakes may keep step with the mains: then every visit sees the same part of a period, and visits do not average.
  const locked = hum_A * Math.min(1, segments.length / (HUM_RADIANS_PER_S * time_s))
  const square = scatter + locked ** 2
  const charge = sumOver(segments, (k) => charge_C[k])
  return {
    mean_A: mean,
    u_A: Math.sqrt(square),
    deviation_A: Math.sqrt(variance),
    noise_A: deviationAt(mean),
    min_A: known.reduce((least, k) => Math.min(least, min_A[k]), Number.POSITIVE_INFINITY),
    max_A: known.reduce((most, k) => Math.max(most, max_A[k]), Number.NEGATIVE_INFINITY),
    samples,
    effectiveSamples: square > 0 ? Math.max(Math.min(variance / square, samples), 1) : samples,
    visits: segments.length,
    dwell: dwellOf(
      segments.filter((k) => isWhole(measured, k, k + 1)).map((k) => times_s[k + 1] - times_s[k]),
    ),
    time_s,
    timeShare: time_s / total_s,
    charge_C: charge,
    chargeShare: total_C === 0 ? 0 : charge / total_C,
  }
}

/** Variance of the mean from the scatter within visits: the largest that any length of batch shows. */
function withinSquare(
  segments: readonly number[],
  measured: MeasuredSegments,
  samples: number,
  variance: number,
): number {
  let largest = variance / samples
  measured.batchCounts.forEach((batchCounts, depth) => {
    const used = segments.filter((k) => batchCounts[k] > 1)
    const freedom = sumOver(used, (k) => batchCounts[k]) - used.length
    if (freedom < FEWEST_BATCHES) return
    const ofBatch = sumOver(used, (k) => measured.batchSquares_A2[depth][k]) / freedom
    largest = Math.max(largest, (ofBatch * BATCH ** (depth + 1)) / samples)
  })
  return largest
}

/** Variance of the mean from the scatter between visits, each weighing as its samples do. */
function betweenSquare(
  segments: readonly number[],
  measured: MeasuredSegments,
  samples: number,
  mean: number,
): number {
  const { counts, mean_A } = measured
  if (segments.length < FEWEST_VISITS) return 0
  const sum = sumOver(segments, (k) => ((counts[k] / samples) * (mean_A[k] - mean)) ** 2)
  return (sum * segments.length) / (segments.length - 1)
}

export function dwellOf(durations_s: readonly number[]): Dwell | null {
  const visits = durations_s.length
  if (visits === 0) return null
  const sorted = Float64Array.from(durations_s).sort()
  const mean_s = sumOver(durations_s) / visits
  return {
    visits,
    mean_s,
    deviation_s: visits > 1 ? Math.sqrt(sumOver(durations_s, (t) => (t - mean_s) ** 2) / (visits - 1)) : 0,
    p5_s: quantileSorted(sorted, 0.05),
    median_s: quantileSorted(sorted, 0.5),
    p95_s: quantileSorted(sorted, 0.95),
  }
}

function sumOver(values: ArrayLike<number>, term: (value: number) => number = (value) => value): number {
  const sum = new CompensatedSum()
  for (let i = 0; i < values.length; i++) sum.add(term(values[i]))
  return sum.value
}
