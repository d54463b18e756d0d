/**
 * What feeds the device, as plain data. Volts, amperes, ohms, farads, coulombs, °C, seconds. `N` is `Uncertain` in a
 * design as written and `number` once drawn. A `Cell` is one cell; series and parallel belong to the pack.
 */
import type { Curve } from '../numeric/curve.ts'
import type { Uncertain } from '../quantity/uncertain.ts'

export type Chemistry =
  | 'Li-ion'
  | 'LiFePO4'
  | 'alkaline'
  | 'Li-FeS2'
  | 'NiMH'
  | 'Li-MnO2'
  | 'Li-SOCl2'
  | 'VRLA'
  | 'supercapacitor'
  | 'ideal'

/** When and how a rechargeable cell may be charged. */
export interface ChargeWindow {
  readonly low_C: number
  readonly high_C: number
  /** End-of-charge voltage of one cell at 20 °C. */
  readonly full_V: number
  /** Share of the charge put in that comes out again. */
  readonly coulombicEfficiency: number
  /** Largest charging current as a multiple of capacity per hour. */
  readonly rateLimit_per_h: number
}

/** One cell of one type, all that the model knows of it. Every constant has its source in the catalogue. */
export interface Cell {
  /** IEC designation or chemistry, e.g. `LR6`, `CR2032`, `Li-ion`. */
  readonly name: string
  readonly chemistry: Chemistry
  readonly capacity_C: number
  /** Kinetic battery model (Manwell & McGowan 1993): share of the available well, 0 < c <= 1, and the constant k' >= 0. */
  readonly wells: { readonly c: number; readonly k_per_s: number }
  /** Open-circuit voltage over state of charge 0..1 at 20 °C, and its change with temperature. */
  readonly openCircuit_V: Curve
  readonly openCircuit_V_per_K: number
  /** Resistance over state of charge at 20 °C, and the factor on it over temperature in °C. */
  readonly resistance_Ohm: Curve
  readonly resistanceFactor: Curve
  /** Resistance doubles when this share of capacity has been lost to age. */
  readonly resistanceAgeing: number
  /** Share of the capacity that can be taken out at a temperature in °C: above 0, and 1 from 20 °C on. */
  readonly capacityFactor: Curve
  /**
   * Self-discharge at 20 °C, a rate on the charge left: at 0.01 a year a full cell begins by losing 1 % a year. May be
   * above 1 (a supercapacitor). The activation energy scales it, and calendar fade, with temperature (Arrhenius).
   */
  readonly selfDischarge_per_year: number
  readonly activation_eV: number
  /** Share of capacity lost for good a year at 20 °C, and per full equivalent cycle. */
  readonly calendarFade_per_year: number
  readonly cycleFade: number
  /**
   * End of discharge that the data sheet rates its capacity to: where a test on the bench ends. A device goes on down to
   * its own brown-out, or until the usable state is 0, where the cell at rest stands no lower than this.
   */
  readonly cutOff_V: number
  readonly charging: ChargeWindow | null
  /** Relative standard deviation of capacity from cell to cell. */
  readonly scatter: number
}

export interface Pack<N = Uncertain> {
  readonly cell: Cell
  readonly series: number
  readonly parallel: number
  /** Of one cell, when new. */
  readonly capacity_C: N
  /** State of charge at the start, 0 to 1. */
  readonly initial: N
  readonly age_s: N
}

export type Regulator<N = Uncertain> =
  | { readonly kind: 'none' }
  | { readonly kind: 'linear'; readonly output_V: N; readonly dropOut_V: N; readonly quiescent_A: N }
  | {
      readonly kind: 'buck' | 'boost' | 'buck-boost'
      readonly output_V: N
      /** Lost between input and output where it passes through: a buck below output + drop-out, a boost above it. */
      readonly dropOut_V: N
      /** Below this input it stops. */
      readonly minimum_V: N
      readonly quiescent_A: N
      /** Efficiency 0..1 over output current in A (read on a logarithmic axis by the model). */
      readonly efficiency: Curve
    }

/** Across the regulator's input, which is the rail where there is no regulator. */
export interface Capacitor<N = Uncertain> {
  readonly capacitance_F: N
  readonly esr_Ohm: N
  readonly leakage_A: N
}

export interface Brownout<N = Uncertain> {
  /** The device stops when its rail falls below this. */
  readonly at_V: N
  /** It starts again only when the cell's voltage has come back above this. */
  readonly restart_V: N
}

/**
 * Between panel and pack. `full_V` is the end-of-charge voltage of one cell, times cells in series for the pack;
 * `quiescent_A` is drawn from the pack while there is no light.
 */
export type Charger<N = Uncertain> =
  /** Panel through a diode straight onto the pack; at the full voltage a shunt takes what is too much. */
  | { readonly kind: 'diode'; readonly drop_V: N; readonly quiescent_A: N; readonly full_V: N }
  /** Series pass element: cell current is panel current at the cell's voltage plus drop-out, up to a limit. */
  | {
      readonly kind: 'linear'
      readonly dropOut_V: N
      readonly limit_A: N
      readonly quiescent_A: N
      readonly full_V: N
    }
  /** Converter that holds the panel at its best point. */
  | {
      readonly kind: 'maximum-power'
      readonly efficiency: N
      readonly limit_A: N
      readonly quiescent_A: N
      readonly full_V: N
    }

/** A panel by the numbers of its data sheet at 1000 W/m², 25 °C, air mass 1.5. */
export interface Panel<N = Uncertain> {
  readonly openCircuit_V: N
  readonly shortCircuit_A: N
  readonly maximumPower_V: N
  readonly maximumPower_A: N
  /** Relative, per kelvin: short-circuit current rises, open-circuit voltage falls. */
  readonly currentCoefficient_per_K: N
  readonly voltageCoefficient_per_K: N
  readonly cellsInSeries: number
  /** Cell temperature above ambient at 800 W/m², nominal operating condition, in kelvin. */
  readonly rise_K: N
}

export interface Supply<N = Uncertain> {
  readonly pack: Pack<N>
  readonly regulator: Regulator<N>
  readonly capacitor: Capacitor<N> | null
  readonly brownout: Brownout<N>
  readonly charger: Charger<N> | null
  readonly panel: Panel<N> | null
}
