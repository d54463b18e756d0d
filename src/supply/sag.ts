/**
 * How deep a source with resistance sags under a peak of current, with a capacitor across the load: closed form.
 *
 *   V0 ──[ R ]──┬──── load: I0 for long, then I1 for tp
 *              [ESR]
 *              [ C ]
 *
 * Volts, ohms, farads, amperes, seconds. The capacitor is settled at I0 when the peak comes; for peaks that follow each other
 * sooner, shares of their steps add up (`brown-out.ts`).
 */
import type { Capacitor } from './supply.ts'

export interface Sag {
  /** Open-circuit voltage of the source. */
  readonly open_V: number
  readonly resistance_Ohm: number
  readonly capacitor: Capacitor<number> | null
  readonly base_A: number
  readonly peak_A: number
  readonly peak_s: number
}

/** What each current counts for at the end of the peak: v = V0 − peak_Ohm·I1 − base_Ohm·I0. They add up to R. */
export interface Shares {
  readonly peak_Ohm: number
  readonly base_Ohm: number
}

/**
 * With τ = (R + ESR)·C and e = exp(−tp/τ), Kirchhoff's node law and the capacitor's charge give
 * peak = R·(R·(1 − e) + ESR)/(R + ESR): the step that ESR leaves at once, then the exponential. It is R where there
 * is no capacitor. Throws RangeError on values below zero.
 */
export function sharesOfResistance(
  resistance_Ohm: number,
  capacitor: Capacitor<number> | null,
  peak_s: number,
): Shares {
  refuseBelowZero('resistance_Ohm', resistance_Ohm)
  refuseBelowZero('peak_s', peak_s)
  if (capacitor !== null) {
    refuseBelowZero('capacitance_F', capacitor.capacitance_F)
    refuseBelowZero('esr_Ohm', capacitor.esr_Ohm)
  }
  if (resistance_Ohm === 0 || capacitor === null || capacitor.capacitance_F === 0)
    return { peak_Ohm: resistance_Ohm, base_Ohm: 0 }
  const { capacitance_F, esr_Ohm } = capacitor
  const sum_Ohm = resistance_Ohm + esr_Ohm
  const tau_s = sum_Ohm * capacitance_F
  const gone = -Math.expm1(-peak_s / tau_s) // 1 − e, exact for a large capacitor too
  const peak_Ohm = (resistance_Ohm * (resistance_Ohm * gone + esr_Ohm)) / sum_Ohm
  return { peak_Ohm, base_Ohm: resistance_Ohm - peak_Ohm }
}

/**
 * Lowest voltage on the load, at the end of the peak (or before it, where the peak is no higher than the base). The
 * capacitor's leakage is drawn all the time.
 */
export function lowestVoltage_V(sag: Sag): number {
  const { open_V, resistance_Ohm, capacitor, base_A, peak_A, peak_s } = sag
  refuseBelowZero('base_A', base_A)
  refuseBelowZero('peak_A', peak_A)
  const { peak_Ohm, base_Ohm } = sharesOfResistance(resistance_Ohm, capacitor, peak_s)
  const steady_V = open_V - resistance_Ohm * (capacitor?.leakage_A ?? 0)
  return steady_V - peak_Ohm * Math.max(peak_A, base_A) - base_Ohm * base_A
}

function refuseBelowZero(name: string, value: number): void {
  if (!(value >= 0)) throw new RangeError(`${name} is zero or more, not ${value}`)
}
