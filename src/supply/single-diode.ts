/**
 * A panel as one current source, one diode and two resistors. Volts at the panel's terminals, amperes out of the
 * positive one, ohms; all cells in series are lumped.
 *
 *   I = Iph − I0·(exp((V + I·Rs)/a) − 1) − (V + I·Rs)/Rsh        (1)
 */
import { lambertW0OfExp } from '../numeric/lambert-w.ts'
import { brent } from '../numeric/root.ts'

export interface FiveParameters {
  /** Iph, ≥ 0. */
  readonly photocurrent_A: number
  /** I0, > 0. */
  readonly saturation_A: number
  /** a = n·Ns·k·T/q: ideality times cells in series times thermal voltage, > 0. */
  readonly modifiedIdeality_V: number
  /** Rs, ≥ 0. */
  readonly series_Ohm: number
  /** 1/Rsh, ≥ 0: zero is a panel without leakage, which no finite resistance can say. */
  readonly shunt_S: number
}

/** Current at a voltage, explicit by Lambert's W (Jain & Kapoor 2004, equation 2). Any voltage; negative above Voc. */
export function currentAt(panel: FiveParameters, voltage_V: number): number {
  const { photocurrent_A, saturation_A, modifiedIdeality_V, series_Ohm, shunt_S } = panel
  const source_A = photocurrent_A + saturation_A
  const divider = 1 + series_Ohm * shunt_S
  if (series_Ohm === 0)
    return source_A - saturation_A * Math.exp(voltage_V / modifiedIdeality_V) - shunt_S * voltage_V
  const exponent =
    Math.log((series_Ohm * saturation_A) / (modifiedIdeality_V * divider)) +
    (voltage_V + series_Ohm * source_A) / (modifiedIdeality_V * divider)
  return (
    (source_A - shunt_S * voltage_V) / divider - (modifiedIdeality_V / series_Ohm) * lambertW0OfExp(exponent)
  )
}

/** From this exponent of W on, the shunt takes less of the photocurrent than a double can tell from nothing. */
const NO_LEAK = 1e18

/**
 * Voltage at a current, explicit by Lambert's W (ibid., equation 3). Without shunt leakage no more than the
 * photocurrent can be had: RangeError.
 */
export function voltageAt(panel: FiveParameters, current_A: number): number {
  const { photocurrent_A, saturation_A, modifiedIdeality_V, series_Ohm, shunt_S } = panel
  const through_A = photocurrent_A + saturation_A - current_A
  const ratio = saturation_A / (modifiedIdeality_V * shunt_S)
  const exponent = Math.log(ratio) + through_A / (modifiedIdeality_V * shunt_S)
  if (!(exponent < NO_LEAK)) {
    if (!(through_A > 0))
      throw new RangeError(`a panel with ${photocurrent_A} A of photocurrent cannot deliver ${current_A} A`)
    return modifiedIdeality_V * Math.log(through_A / saturation_A) - current_A * series_Ohm
  }
  const w = lambertW0OfExp(exponent)
  // The same voltage in two forms: each loses its digits where the other keeps them.
  const diode_V =
    w > 1 ? modifiedIdeality_V * Math.log(w / ratio) : through_A / shunt_S - modifiedIdeality_V * w
  return diode_V - current_A * series_Ohm
}

export const shortCircuit_A = (panel: FiveParameters): number => currentAt(panel, 0)
export const openCircuit_V = (panel: FiveParameters): number => voltageAt(panel, 0)

export interface PowerPoint {
  readonly voltage_V: number
  readonly current_A: number
  readonly power_W: number
}

/**
 * The point of greatest power: the root of dP/du between short and open circuit, where u = V + I·Rs is the voltage on
 * the diode, in which both V and I are explicit. P is concave in V there, so the root is the only one. All zero in
 * the dark.
 */
export function maximumPower(panel: FiveParameters): PowerPoint {
  const { photocurrent_A, saturation_A, modifiedIdeality_V, series_Ohm, shunt_S } = panel
  if (!(photocurrent_A > 0)) return { voltage_V: 0, current_A: 0, power_W: 0 }
  const current = (u: number) =>
    photocurrent_A - saturation_A * Math.expm1(u / modifiedIdeality_V) - shunt_S * u // (1)
  const powerSlope = (u: number) => {
    const current_A = current(u)
    const slope_S = -(saturation_A / modifiedIdeality_V) * Math.exp(u / modifiedIdeality_V) - shunt_S // dI/du
    return current_A * (1 - slope_S * series_Ohm) + (u - current_A * series_Ohm) * slope_S // I·dV/du + V·dI/du
  }
  const u = brent(powerSlope, shortCircuit_A(panel) * series_Ohm, openCircuit_V(panel))
  const current_A = current(u)
  const voltage_V = u - current_A * series_Ohm
  return { voltage_V, current_A, power_W: voltage_V * current_A }
}
