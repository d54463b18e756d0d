/** What the instrument does to the device it measures, and what it is too slow to see. */
import type { InstrumentRange } from './instrument.ts'

/**
 * How a device's current answers to its supply: a constant current (a linear regulator before it), a resistance, or a
 * constant power (a switching converter before it).
 */
export type Load = 'constant-current' | 'resistance' | 'constant-power'

export interface Burden {
  /** By so much the device's supply is lower with the instrument than without. */
  readonly drop_V: number
  /** What the device would draw without the instrument, less what was measured. In A. */
  readonly shift_A: number
}

/** Throws RangeError where the burden takes the whole supply: no such current can have flowed. */
export function burdenOf(range: InstrumentRange, current_A: number, supply_V: number, load: Load): Burden {
  const drop_V = Math.abs(current_A) * range.burden_Ohm
  const left_V = supply_V - drop_V
  if (!(left_V > 0))
    throw new RangeError(
      `range ${range.name}: ${current_A} A through ${range.burden_Ohm} Ω drop ${drop_V} V, and the supply has ${supply_V} V`,
    )
  switch (load) {
    case 'resistance':
      return { drop_V, shift_A: current_A * (supply_V / left_V - 1) } // I₀ = U / R, R = (U − I R_b) / I
    case 'constant-power':
      return { drop_V, shift_A: current_A * (left_V / supply_V - 1) } // I₀ U = I (U − I R_b)
    case 'constant-current':
      return { drop_V, shift_A: 0 }
  }
}

/** Part of its height that a pulse reaches behind a first-order low-pass with the range's bandwidth; null when not known. */
export function pulseSeen(range: InstrumentRange, duration_s: number): number | null {
  if (range.bandwidth_Hz === null) return null
  return -Math.expm1(-2 * Math.PI * range.bandwidth_Hz * duration_s)
}
