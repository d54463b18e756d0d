/**
 * What a capacitor leaks once it has stood at its voltage for days, where nobody has measured it. Farads, volts, amperes.
 *
 * The 0.01 CV of data sheets (3 µA at least) is what an electrolytic capacitor may draw after some minutes at its rated
 * voltage, and parts are refused above it; its oxide forms on, and after days it draws one to two orders less. A
 * double-layer capacitor is stated after a day or three, in µA a farad. Common practice, from memory.
 */
import type { Uncertain } from '../quantity/uncertain.ts'

export interface UsualLeakage {
  readonly kind: 'electrolytic' | 'double-layer'
  readonly leakage_A: Uncertain
}

/** Larger ones are double-layer capacitors, whatever they bear … */
const ALWAYS_LAYERED_F = 0.1
/** … and from here on those that bear no more than two cells of them in series. */
const LAYERED_F = 0.01
const LAYERED_V = 6
/** One double-layer cell bears 2.5 to 3 V: more needs several in series, each of so much more capacitance. */
const LAYER_V = 3

const LAYERED_A_F = { p5: 1e-6, typical: 2e-6, p95: 4e-6 }

const ACCEPTED_A_CV = 0.01
const LEAST_ACCEPTED_A = 3e-6
/** What is left after days of what was accepted after minutes. */
const FORMED = { p5: 0.01, typical: 0.03, p95: 0.1 }

/** `bears_V` is its rating, or where that is not known the highest voltage across it, which is `across_V`; all above 0. */
export function usualLeakage(capacitance_F: number, bears_V: number, across_V: number): UsualLeakage {
  const isLayered = capacitance_F >= ALWAYS_LAYERED_F || (capacitance_F >= LAYERED_F && bears_V <= LAYERED_V)
  return isLayered
    ? {
        kind: 'double-layer',
        leakage_A: between(LAYERED_A_F, capacitance_F * Math.ceil(bears_V / LAYER_V)),
      }
    : {
        kind: 'electrolytic',
        leakage_A: between(FORMED, Math.max(ACCEPTED_A_CV * capacitance_F * across_V, LEAST_ACCEPTED_A)),
      }
}

const between = (
  { p5, typical, p95 }: { readonly p5: number; readonly typical: number; readonly p95: number },
  factor: number,
): Uncertain => ({ kind: 'skewed', p5: p5 * factor, typical: typical * factor, p95: p95 * factor })
