/**
 * Uncertainty of readings, of states and of charge by the GUM (JCGM 100). Rounding and the maker's limits of error are
 * rectangular (4.3.7). The limits of one range are one unknown offset and gain: fully correlated between all of its
 * readings, so no number of samples makes them smaller, and they add up linearly over the states measured on it.
 */
import type { Uncertain } from '../quantity/uncertain.ts'
import type { InstrumentRange } from './instrument.ts'

/** Standard uncertainties in A. */
export interface ReadingUncertainty {
  /** Of rounding to a digit: δ / √12 (F.2.2.1). */
  readonly resolution_A: number
  /** Of the maker's limits ± a: a / √3 (4.3.7). */
  readonly accuracy_A: number
  readonly combined_A: number
}

export function readingUncertainty(range: InstrumentRange, reading_A: number): ReadingUncertainty {
  const resolution_A = range.digit_A / Math.sqrt(12)
  const accuracy_A = accuracyOf(range, reading_A)
  return { resolution_A, accuracy_A, combined_A: Math.hypot(resolution_A, accuracy_A) }
}

function accuracyOf(range: InstrumentRange, reading_A: number): number {
  const limit_A =
    range.accuracyOfReading * Math.abs(reading_A) +
    range.accuracyDigits * range.digit_A +
    range.accuracyOffset_A
  return limit_A / Math.sqrt(3)
}

/** What is known of the samples behind a mean; a state has these fields. */
export interface SampledMean {
  readonly mean_A: number
  /** Of the mean, from scatter alone (type A, 4.2.3), correlation allowed for. */
  readonly u_A: number
  readonly deviation_A: number
  readonly effectiveSamples: number
  readonly min_A: number
  readonly max_A: number
}

export interface MeanUncertainty extends ReadingUncertainty {
  readonly scatter_A: number
}

/** Noise of at least half a digit spreads readings so that rounding averages out (Widrow & Kollár 2008, ch. 5). */
const DITHER_DIGITS = 0.5

/** Of a mean over samples: scatter, rounding (averaged only where noise dithers it) and the maker's limits. */
export function meanUncertainty(range: InstrumentRange, sampled: SampledMean): MeanUncertainty {
  const { resolution_A: one_A, accuracy_A } = readingUncertainty(range, sampled.mean_A)
  const dithered = sampled.deviation_A >= DITHER_DIGITS * range.digit_A
  const resolution_A = dithered ? one_A / Math.sqrt(sampled.effectiveSamples) : one_A
  return {
    scatter_A: sampled.u_A,
    resolution_A,
    accuracy_A,
    combined_A: Math.hypot(sampled.u_A, resolution_A, accuracy_A),
  }
}

/** Nothing but zeros on a range: all that is known is that the current is below half a digit. */
export function readsZero(range: InstrumentRange, { min_A, max_A }: SampledMean): boolean {
  const half_A = range.digit_A / 2
  return half_A > 0 && Math.abs(min_A) < half_A && Math.abs(max_A) < half_A
}

/** A state's current as it goes into a budget: below half a digit, or a value with its standard uncertainty. */
export function stateCurrent(range: InstrumentRange, sampled: SampledMean): Uncertain {
  if (readsZero(range, sampled)) return { kind: 'below', limit: range.digit_A / 2 }
  const { combined_A } = meanUncertainty(range, sampled)
  return combined_A > 0
    ? { kind: 'normal', value: sampled.mean_A, u: combined_A }
    : { kind: 'exact', value: sampled.mean_A }
}

/** A share of a charge: a mean that flowed for a time, on a range. */
export interface ChargePart {
  readonly range: InstrumentRange
  readonly sampled: SampledMean
  readonly time_s: number
}

export interface ChargeUncertainty {
  /** Best value. Where a range read zero, the current is anywhere from 0 to half a digit: a quarter digit is taken. */
  readonly charge_C: number
  /** Standard uncertainty. */
  readonly u_C: number
  /** Of it: scatter and rounding, the maker's limits, and what read zero. */
  readonly scatter_C: number
  readonly accuracy_C: number
  readonly below_C: number
}

/** Law of propagation (5.1.2 and 5.2.2): correlated within a range, uncorrelated between ranges. */
export function chargeUncertainty(parts: readonly ChargePart[]): ChargeUncertainty {
  let charge_C = 0
  let scatterSquare = 0
  let belowSquare = 0
  const accuracy = new Map<InstrumentRange, number>()
  for (const { range, sampled, time_s } of parts) {
    if (readsZero(range, sampled)) {
      charge_C += (range.digit_A / 4) * time_s
      belowSquare += ((range.digit_A / 2 / Math.sqrt(12)) * time_s) ** 2
      continue
    }
    const { scatter_A, resolution_A, accuracy_A } = meanUncertainty(range, sampled)
    charge_C += sampled.mean_A * time_s
    scatterSquare += (Math.hypot(scatter_A, resolution_A) * time_s) ** 2
    accuracy.set(range, (accuracy.get(range) ?? 0) + accuracy_A * time_s)
  }
  const accuracySquare = [...accuracy.values()].reduce((sum, part) => sum + part ** 2, 0)
  return {
    charge_C,
    u_C: Math.sqrt(scatterSquare + belowSquare + accuracySquare),
    scatter_C: Math.sqrt(scatterSquare),
    accuracy_C: Math.sqrt(accuracySquare),
    below_C: Math.sqrt(belowSquare),
  }
}

/**
 * Standard uncertainty of a charge, in C, from not knowing where in an interval each change lies, for an instrument whose
 * samples are values at an instant: rectangular over the interval, independent between changes. `steps_A`: by how much
 * the current changes each time.
 */
export function edgeUncertainty(steps_A: ArrayLike<number>, interval_s: number): number {
  let square = 0
  for (let k = 0; k < steps_A.length; k++) square += steps_A[k] ** 2
  return interval_s * Math.sqrt(square / 12)
}
