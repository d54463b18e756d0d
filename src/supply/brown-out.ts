/**
 * Whether the device holds up under a peak: source, capacitor across the regulator's input, regulator, rail.
 *
 * A switching regulator draws constant power, more current the lower its input sags, and from a source of resistance R
 * no more than V0²/(4·R) can be had at all. Its current is taken as that at the lowest voltage from the start, which makes
 * the sag a quadratic and errs on the safe side (by how much: docs/models/brown-out.md); all else is exact.
 */
import { inputPower_W, passesThrough, railVoltage_V, type Switching } from './regulator.ts'
import { sharesOfResistance } from './sag.ts'
import type { Brownout, Capacitor, Regulator } from './supply.ts'

/** Currents of the device: at the rail, before and in the peak, and what is drawn ahead of the regulator all the time. */
export interface PeakLoad {
  /** For so long that the capacitor has settled. */
  readonly base_A: number
  /** What flowed since, up to the peak, in its order; nothing where it is left out. */
  readonly before?: readonly Flow[]
  readonly peak_A: number
  readonly peak_s: number
  readonly direct_A: number
}

export interface Flow {
  readonly current_A: number
  readonly duration_s: number
}

/** The parts that a peak meets, whatever the state of the source. */
export interface PowerPath {
  readonly resistance_Ohm: number
  readonly capacitor: Capacitor<number> | null
  readonly regulator: Regulator<number>
}

export type Dip =
  | { readonly kind: 'holds'; readonly input_V: number; readonly rail_V: number }
  /** The input falls to where the regulator stops. */
  | { readonly kind: 'stopped'; readonly input_V: number }
  /** The source cannot give the power at any voltage; it could from this open-circuit voltage on. */
  | { readonly kind: 'collapsed'; readonly neededOpen_V: number }

/** Sag as a function of the input voltage v: V0 = v + constant_V + (passing_V or regulated_V2/v). */
interface SagLaw {
  readonly constant_V: number
  readonly passing_V: number
  readonly regulated_V2: number
}

/**
 * The circuit is linear: at the end of the peak each current that flowed counts for what is left of its step (superposition),
 * which is the share of the resistance at its beginning less that at its end.
 */
function sagLaw(path: PowerPath, load: PeakLoad): SagLaw {
  const { resistance_Ohm, capacitor, regulator } = path
  const { base_A, before = [], peak_s, direct_A } = load
  const power_W = isSwitching(regulator) ? (current_A: number) => inputPower_W(regulator, current_A) : () => 0
  const quiescent_A = regulator.kind === 'none' ? 0 : regulator.quiescent_A
  let passing_V = 0
  let regulated_V2 = 0
  let counted_Ohm = 0
  let ago_s = 0
  const count = (current_A: number, untilAgo_Ohm: number) => {
    const weight_Ohm = untilAgo_Ohm - counted_Ohm
    counted_Ohm = untilAgo_Ohm
    if (weight_Ohm === 0) return
    passing_V += weight_Ohm * current_A
    regulated_V2 += weight_Ohm * power_W(current_A)
  }
  const lasting = (current_A: number, duration_s: number) => {
    ago_s += duration_s
    count(current_A, sharesOfResistance(resistance_Ohm, capacitor, ago_s).peak_Ohm)
  }
  lasting(Math.max(load.peak_A, base_A), peak_s)
  for (let i = before.length - 1; i >= 0 && counted_Ohm < resistance_Ohm; i--)
    lasting(before[i].current_A, before[i].duration_s)
  count(base_A, resistance_Ohm)
  return {
    constant_V: resistance_Ohm * (direct_A + quiescent_A + (capacitor?.leakage_A ?? 0)),
    passing_V,
    regulated_V2,
  }
}

/** The lowest point of input and rail under the peak, from a source of this open-circuit voltage (≥ 0). */
export function dip(path: PowerPath, load: PeakLoad, open_V: number): Dip {
  const { regulator } = path
  const law = sagLaw(path, load)
  const passing_V = open_V - law.constant_V - law.passing_V
  const regulated_V = isSwitching(regulator) ? regulatedInput_V(law, open_V) : null
  const input_V = isSwitching(regulator) ? settled_V(regulator, passing_V, regulated_V) : passing_V
  if (input_V === null)
    return { kind: 'collapsed', neededOpen_V: 2 * Math.sqrt(law.regulated_V2) + law.constant_V }
  const held_V = Math.max(0, input_V)
  const rail_V = railVoltage_V(regulator, held_V)
  return rail_V === null ? { kind: 'stopped', input_V: held_V } : { kind: 'holds', input_V: held_V, rail_V }
}

/** Upper root of v + regulated_V2/v = V0 − constant; null beyond the greatest power. */
function regulatedInput_V(law: SagLaw, open_V: number): number | null {
  const half = (open_V - law.constant_V) / 2
  const under = half * half - law.regulated_V2
  return half >= 0 && under >= 0 ? half + Math.sqrt(under) : null
}

/**
 * Which of the two ways of working agrees with the voltage it leads to; the higher, where both do. Where neither does
 * (regulating would pull the input into passing, passing would let it back), it stays at the edge between them.
 */
function settled_V(regulator: Switching, passing_V: number, regulated_V: number | null): number | null {
  const passes = passesThrough(regulator, passing_V)
  const regulates = regulated_V !== null && !passesThrough(regulator, regulated_V)
  if (passes && regulates) return Math.max(passing_V, regulated_V)
  if (passes) return passing_V
  if (regulates) return regulated_V
  if (regulated_V === null && regulator.kind !== 'buck') return null
  return regulator.output_V + regulator.dropOut_V
}

/** Volts between the rail's lowest point and the brown-out threshold; negative below it, null where there is no rail. */
export const marginOf = (brownout: Brownout<number>, lowest: Dip): number | null =>
  lowest.kind === 'holds' ? lowest.rail_V - brownout.at_V : null

/**
 * The lowest open-circuit voltage from which the rail stays at or above `at_V` through the peak: the inverse of `dip`.
 * Null where no voltage will do, because the regulator's output lies below `at_V`.
 */
export function neededOpen_V(path: PowerPath, load: PeakLoad, at_V: number): number | null {
  const { regulator } = path
  const law = sagLaw(path, load)
  const openPassing = (input_V: number) => input_V + law.constant_V + law.passing_V
  if (regulator.kind === 'none') return openPassing(at_V)
  if (regulator.output_V < at_V) return null
  if (regulator.kind === 'linear') return openPassing(at_V + regulator.dropOut_V)
  // v + regulated_V2/v is least at the square root, below which the source has collapsed.
  const openRegulated = (input_V: number) => {
    const v = Math.max(input_V, Math.sqrt(law.regulated_V2))
    return v + law.constant_V + (v > 0 ? law.regulated_V2 / v : 0)
  }
  const edge_V = regulator.output_V + regulator.dropOut_V
  const { minimum_V } = regulator
  switch (regulator.kind) {
    case 'buck-boost':
      return openRegulated(minimum_V)
    case 'boost':
      return minimum_V <= edge_V
        ? Math.min(openRegulated(minimum_V), openPassing(edge_V))
        : openPassing(minimum_V)
    case 'buck': {
      const least_V = Math.max(minimum_V, at_V + regulator.dropOut_V)
      return least_V <= edge_V
        ? Math.min(openPassing(least_V), openRegulated(edge_V))
        : openRegulated(least_V)
    }
  }
}

const isSwitching = (regulator: Regulator<number>): regulator is Switching =>
  regulator.kind !== 'none' && regulator.kind !== 'linear'
