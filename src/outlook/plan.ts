/**
 * One run's design as flat numbers and tables: all that the step function reads. Whatever is costly (regulators,
 * brown-out, the panel's curve) has been worked out beforehand on uniform grids, so that a step is a handful of
 * look-ups. The twin in C reads the very same arrays.
 *
 * Units: seconds, amperes and coulombs at the pack's terminals, pack volts and ohms, °C, W/m². A current is positive
 * out of the pack.
 */
import type { PanelTable } from '../supply/panel-table.ts'

/** Nodes over state of charge 0..1: open-circuit voltage and resistance of the pack at 20 °C. */
export const STATE_CELLS = 256
/** Nodes over temperature, one a kelvin. */
export const LOW_C = -60
export const TEMPERATURE_CELLS = 160
/** Nodes over pack voltage: rest current and the extra charge of one wake. */
export const VOLTAGE_CELLS = 128
/** Nodes over the square root of pack resistance: the lowest open-circuit voltage at which the device holds up. */
export const RESISTANCE_CELLS = 48

export interface Charging {
  readonly panel: PanelTable
  /** Between pack and panel; what the converter leaves, 1 where there is none. */
  readonly drop_V: number
  readonly converter: number
  /** Panel cells' rise above the air, K per W/m². */
  readonly panelRise_K_m2_W: number
  /** What dirt leaves of the light, 0..1. */
  readonly clean: number
  /** No charging outside these temperatures of the cell. */
  readonly low_C: number
  readonly high_C: number
  readonly full_V: number
  /** State of charge at which the open-circuit voltage reaches `full_V`. */
  readonly fullState: number
  readonly coulombicEfficiency: number
  readonly limit_A: number
  /** What the charger takes from the cell while there is no light. */
  readonly night_A: number
}

export interface WakeRow {
  /** The row holds below this voltage under the rest load; Infinity for the first. */
  readonly below_V: number
  readonly hysteresis_V: number
  /** Expected wakes in one step. */
  readonly wakesPerStep: number
  /** Where wakes follow the clock: expected wakes in each step of the year, instead of `wakesPerStep`. */
  readonly pattern: Float64Array | null
}

export interface Plan {
  readonly step_s: number
  /** When new. */
  readonly capacity_C: number
  readonly initialCharge_C: number
  readonly initialFade: number
  /** Kinetic model over one step at current I: y1' = keep·y1 + share·q − give·I, q' = q − I·step. */
  readonly available: number
  readonly keep: number
  readonly share: number
  readonly give_s: number
  /** STATE_CELLS + 1 pairs: volts, ohms. */
  readonly byState: Float64Array
  readonly openCircuit_V_per_K: number
  readonly resistanceAgeing: number
  /**
   * TEMPERATURE_CELLS + 1 rows of four: share of the capacity that can be taken out, factor on resistance, share of
   * charge left after one step of self-discharge, share of capacity lost to age in one step.
   */
  readonly byTemperature: Float64Array
  readonly cycleFade_per_C: number
  /** VOLTAGE_CELLS + 1 pairs over pack voltage: rest current in A, extra charge of one wake in C. */
  readonly byVoltage: Float64Array
  readonly voltageLow_V: number
  readonly voltageStep_V: number
  /** RESISTANCE_CELLS + 1 pairs over √(R/top) in 0..1: open-circuit voltage needed awake, and at rest. */
  readonly byResistance: Float64Array
  readonly resistanceTop_Ohm: number
  /** What still flows once the device has browned out. */
  readonly down_A: number
  readonly restart_V: number
  readonly enclosureRise_K_m2_W: number
  readonly charging: Charging | null
  /** At least one; sorted by falling voltage. */
  readonly rows: readonly WakeRow[]
}

/**
 * The plan made by one literal, whatever it was put together from. Objects that come from spreads each have a shape of
 * their own to the compiler, and the step function then takes twice as long over them.
 */
export const inOneShape = (plan: Plan): Plan => ({
  step_s: plan.step_s,
  capacity_C: plan.capacity_C,
  initialCharge_C: plan.initialCharge_C,
  initialFade: plan.initialFade,
  available: plan.available,
  keep: plan.keep,
  share: plan.share,
  give_s: plan.give_s,
  byState: plan.byState,
  openCircuit_V_per_K: plan.openCircuit_V_per_K,
  resistanceAgeing: plan.resistanceAgeing,
  byTemperature: plan.byTemperature,
  cycleFade_per_C: plan.cycleFade_per_C,
  byVoltage: plan.byVoltage,
  voltageLow_V: plan.voltageLow_V,
  voltageStep_V: plan.voltageStep_V,
  byResistance: plan.byResistance,
  resistanceTop_Ohm: plan.resistanceTop_Ohm,
  down_A: plan.down_A,
  restart_V: plan.restart_V,
  enclosureRise_K_m2_W: plan.enclosureRise_K_m2_W,
  charging: plan.charging,
  rows: plan.rows,
})
