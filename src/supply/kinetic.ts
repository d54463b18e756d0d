/**
 * Kinetic battery model: Manwell & McGowan, "Lead acid battery storage model for hybrid energy systems", Solar Energy
 * 50 (1993) 399-405. The charge left, q, stands in two wells: the available one, which the load draws from, and the
 * bound one, which refills it. `c` is the available well's share of the width, 0 < c <= 1; `k_per_s` is k' of the
 * paper, k / (c (1 - c)), in 1/s and >= 0. c = 1 or k = 0 is an ideal cell or one that never recovers.
 *
 * Coulombs, amperes (positive out of the cell), seconds. The bound charge is q less the available charge. No limit is
 * imposed at empty or full: the caller keeps the current within what the wells hold.
 */
import { brent } from '../numeric/root.ts'

/** What one step of fixed length does to the wells, at whatever current: three linear coefficients. */
export interface WellFactors {
  readonly duration_s: number
  readonly keep: number
  readonly share: number
  readonly give_s: number
}

export function wellFactors(duration_s: number, k_per_s: number, c: number): WellFactors {
  const settled = -Math.expm1(-k_per_s * duration_s)
  const lag_s = k_per_s === 0 ? duration_s : settled / k_per_s
  return {
    duration_s,
    keep: 1 - settled,
    share: c * settled,
    // (1 - e) / k' + c (k't - 1 + e) / k', gathered so that nothing cancels at small k't.
    give_s: c * duration_s + (1 - c) * lag_s,
  }
}

/** Available charge after the step, of `available_C` within `charge_C` at its start: Manwell & McGowan (1993), y1(t). */
export function availableAfter(
  step: WellFactors,
  available_C: number,
  charge_C: number,
  current_A: number,
): number {
  return step.keep * available_C + step.share * charge_C - step.give_s * current_A
}

/** Charge in both wells after the step. */
export function chargeAfter(step: WellFactors, charge_C: number, current_A: number): number {
  return charge_C - step.duration_s * current_A
}

/**
 * Time in seconds until the available charge has fallen to `floor_C` (0 <= floor_C) at a constant current; 0 where it
 * is there already, Infinity where the cell is not being discharged. The available charge under a constant discharge
 * is a straight line plus one exponential, so it passes the floor once; the root is bracketed by the time that empties
 * both wells.
 */
export function timeToEmpty(
  available_C: number,
  charge_C: number,
  current_A: number,
  k_per_s: number,
  c: number,
  floor_C = 0,
): number {
  if (available_C <= floor_C) return 0
  if (current_A <= 0) return Infinity
  const longest_s = charge_C / current_A
  const above_C = (t: number) =>
    availableAfter(wellFactors(t, k_per_s, c), available_C, charge_C, current_A) - floor_C
  // Where there is no bound charge the bracket's end is the root itself, give or take rounding.
  if (above_C(longest_s) >= 0) return longest_s
  return brent(above_C, 0, longest_s, longest_s * 1e-14)
}
