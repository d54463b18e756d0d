/**
 * Between battery and rail. Volts at the regulator's input (`battery_V`) and output, amperes drawn by the device
 * (`railCurrent_A`) and from the battery, both ≥ 0.
 *
 * A switching regulator that can go no further one way passes its input through: a buck below output + drop-out, a
 * boost above it. Then, as in a linear one, current in is current out and the drop-out is lost.
 */
import { type Curve, valueAt } from '../numeric/curve.ts'
import type { Regulator } from './supply.ts'

export type Switching = Extract<Regulator<number>, { efficiency: unknown }>

/** Whether input goes straight to output at this voltage, rather than being regulated. */
export function passesThrough(
  regulator: Exclude<Regulator<number>, { kind: 'none' }>,
  battery_V: number,
): boolean {
  const short = battery_V < regulator.output_V + regulator.dropOut_V
  switch (regulator.kind) {
    case 'linear':
    case 'buck':
      return short
    case 'boost':
      return !short
    case 'buck-boost':
      return false
  }
}

/** A switching regulator stops below its lowest input. */
const runsAt = (regulator: Regulator<number>, battery_V: number): boolean =>
  regulator.kind === 'none' || regulator.kind === 'linear' || battery_V >= regulator.minimum_V

/**
 * Efficiency at an output current, linear on a logarithmic current axis and constant beyond the curve's ends. Throws
 * RangeError on a current of the curve that is not above zero, or an efficiency outside 0 to 1. For the battery's
 * current to rise with the rail's, efficiency must nowhere rise faster than in proportion to current.
 */
export const efficiencyAt = (regulator: Switching, railCurrent_A: number): number =>
  valueAt(byLogarithm(regulator.efficiency), Math.log(railCurrent_A))

/** Curves are looked up thousands of times for every plan: each is checked and turned once. */
const turned = new WeakMap<Curve, Curve>()

function byLogarithm(efficiency: Curve): Curve {
  const known = turned.get(efficiency)
  if (known !== undefined) return known
  const { x, y } = efficiency
  if (!(x[0] > 0)) throw new RangeError(`an efficiency curve begins above 0 A, not at ${x[0]} A`)
  const wrong = y.find((share) => !(share > 0 && share <= 1))
  if (wrong !== undefined) throw new RangeError(`efficiency lies above 0 and up to 1, not at ${wrong}`)
  const curve = { x: x.map(Math.log), y }
  turned.set(efficiency, curve)
  return curve
}

/** Power that the input must deliver for a regulated output, quiescent current not included. */
export const inputPower_W = (regulator: Switching, railCurrent_A: number): number =>
  railCurrent_A > 0 ? (railCurrent_A * regulator.output_V) / efficiencyAt(regulator, railCurrent_A) : 0

/** Current from the battery for a current at the rail; null where the regulator has stopped. */
export function batteryCurrent_A(
  regulator: Regulator<number>,
  railCurrent_A: number,
  battery_V: number,
): number | null {
  if (!(railCurrent_A >= 0)) throw new RangeError(`a rail's current is zero or more, not ${railCurrent_A} A`)
  if (!(battery_V >= 0)) throw new RangeError(`a battery's voltage is zero or more, not ${battery_V} V`)
  if (regulator.kind === 'none') return railCurrent_A
  if (!runsAt(regulator, battery_V)) return null
  if (regulator.kind === 'linear' || passesThrough(regulator, battery_V))
    return railCurrent_A + regulator.quiescent_A
  const power_W = inputPower_W(regulator, railCurrent_A)
  return power_W > 0 ? power_W / battery_V + regulator.quiescent_A : regulator.quiescent_A
}

/** The rail's voltage for a voltage at the regulator's input; null where it has stopped. */
export function railVoltage_V(regulator: Regulator<number>, battery_V: number): number | null {
  if (regulator.kind === 'none') return battery_V
  if (!runsAt(regulator, battery_V)) return null
  return passesThrough(regulator, battery_V)
    ? Math.max(0, battery_V - regulator.dropOut_V)
    : regulator.output_V
}
