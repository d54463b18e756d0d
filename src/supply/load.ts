/** What a load draws from a source with an open-circuit voltage and a resistance. Volts, amperes, ohms, watts. */

export type Load =
  | { readonly kind: 'current'; readonly current_A: number }
  | { readonly kind: 'resistance'; readonly resistance_Ohm: number }
  | { readonly kind: 'power'; readonly power_W: number }

export interface OperatingPoint {
  readonly current_A: number
  /** At the terminals. */
  readonly voltage_V: number
  /** Lost inside the source. */
  readonly drop_V: number
}

/** Where load and source meet (Kirchhoff), or null where the source cannot give what a constant-power load asks. */
export function operatingPoint(load: Load, open_V: number, resistance_Ohm: number): OperatingPoint | null {
  const current_A = drawn_A(load, open_V, resistance_Ohm)
  if (current_A === null) return null
  const drop_V = current_A * resistance_Ohm
  return { current_A, voltage_V: open_V - drop_V, drop_V }
}

function drawn_A(load: Load, open_V: number, resistance_Ohm: number): number | null {
  switch (load.kind) {
    case 'current':
      return load.current_A
    case 'resistance':
      return open_V / (load.resistance_Ohm + resistance_Ohm)
    case 'power': {
      // P = I (E - I R): the smaller root, as 2 P / (E + sqrt(E² - 4 P R)), which also holds at R = 0.
      const discriminant = open_V * open_V - 4 * load.power_W * resistance_Ohm
      return discriminant < 0 ? null : (2 * load.power_W) / (open_V + Math.sqrt(discriminant))
    }
  }
}
