/** The peak of a step: the highest current of each time that it is done, and how long it lasts at half its height. */
import { compensatedSum } from '../numeric/sum.ts'
import type { Estimate } from '../quantity/estimate.ts'
import type { MeasuredStep } from './match-steps-measure.ts'
import type { Analysis } from './states.ts'
import type { Samples } from './states-samples.ts'

export interface MeasuredPeak {
  /** Mean over the wakes; u is the scatter of a single one, since the next may be any of them. */
  readonly current_A: Estimate
  readonly duration_s: Estimate
  /** In how many of the wakes there was one. */
  readonly wakes: number
  /** So few samples lie within it that it may be higher and shorter than it looks. */
  readonly coarse: boolean
}

// Our own choices: what stands out of the noise, and out of the step.
const DEVIATIONS = 6
const LEAST_RATIO = 1.2
const LONGEST_SHARE = 0.25
const COARSE_SAMPLES = 3
/** A change is found to within two samples. */
const EDGE = 2

interface Peak {
  readonly current_A: number
  readonly duration_s: number
  readonly samples: number
}

/** Null where fewer than half of the wakes show one. */
export function peakOf(samples: Samples, analysis: Analysis, step: MeasuredStep): MeasuredPeak | null {
  const peaks = step.occurrences.flatMap(({ segments, duration_s, charge_C }) => {
    const found = segments
      .map((segment) => highest(samples, analysis, segment, charge_C / duration_s))
      .filter((peak) => peak !== null)
    const top = found.reduce<Peak | null>(
      (best, peak) => (best === null || peak.current_A > best.current_A ? peak : best),
      null,
    )
    return top !== null && top.duration_s <= LONGEST_SHARE * duration_s ? [top] : []
  })
  if (peaks.length === 0 || peaks.length < step.occurrences.length / 2) return null
  return {
    current_A: scattered(peaks.map(({ current_A }) => current_A)),
    duration_s: scattered(
      peaks.map(({ duration_s }) => duration_s),
      samples.interval_s / Math.sqrt(6), // each edge lies anywhere within a sample
    ),
    wakes: peaks.length,
    coarse: peaks.some((peak) => peak.samples < COARSE_SAMPLES),
  }
}

function highest(
  samples: Samples,
  { segments, states }: Analysis,
  segment: number,
  mean_A: number,
): Peak | null {
  const from = segments.starts[segment]
  const to = segment + 1 < segments.starts.length ? segments.starts[segment + 1] : samples.count
  const values = samples.read(from, to)
  const noise_A = DEVIATIONS * states[segments.states[segment]].deviation_A
  const before_A = (segments.mean_A[segment - 1] ?? 0) + noise_A
  const behind_A = (segments.mean_A[segment + 1] ?? 0) + noise_A
  /** Next to a change a sample may hold some of either level. */
  const isEdge = (i: number) =>
    (i < EDGE && values[i] <= before_A) || (i >= values.length - EDGE && values[i] <= behind_A)
  let top = -1
  values.forEach((value, i) => {
    if (Number.isFinite(value) && !isEdge(i) && (top < 0 || value > values[top])) top = i
  })
  if (top < 0 || values[top] < LEAST_RATIO * mean_A || values[top] < mean_A + noise_A) return null
  const half_A = (values[top] + mean_A) / 2
  let first = top
  let last = top
  while (first > 0 && values[first - 1] >= half_A && !isEdge(first - 1)) first--
  while (last < values.length - 1 && values[last + 1] >= half_A && !isEdge(last + 1)) last++
  return {
    current_A: values[top],
    duration_s: samples.time_s(from + last + 1) - samples.time_s(from + first),
    samples: last - first + 1,
  }
}

/** Mean with the deviation of a single value, at least `least`. */
function scattered(values: readonly number[], least = 0): Estimate {
  const n = values.length
  const value = compensatedSum(values) / n
  const square = n > 1 ? compensatedSum(values.map((x) => (x - value) ** 2)) / (n - 1) : 0
  const u = Math.sqrt(square)
  return u > least ? { value, u, dof: n - 1 } : { value, u: least, dof: Infinity }
}
