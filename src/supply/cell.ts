/**
 * A cell's voltage and resistance from its state. The head of the available well, h, is 1 full and 0 empty at 20 °C;
 * cold lets less be taken out, so the usable state s falls faster: s = 1 - (1 - h) / f(T). The same charge taken looks
 * deeper in the cold, and comes back with warmth. Volts, ohms, coulombs, °C; fade is the share of capacity lost to age.
 */
import { valueAt } from '../numeric/curve.ts'
import type { Cell } from './supply.ts'

const REFERENCE_C = 20

/** Head of the available well: `available_C` over what it holds when full, once `fade` has gone from `capacity_C`. */
export function wellHead(cell: Cell, available_C: number, capacity_C: number, fade: number): number {
  return available_C / (cell.wells.c * capacity_C * (1 - fade))
}

/** Usable state 0..1 of a cell whose available well stands at `head`. At 0 it is empty for as long as it stays so cold. */
export function usableState(cell: Cell, head: number, temperature_C: number): number {
  const depth = (1 - head) / valueAt(cell.capacityFactor, temperature_C)
  return Math.min(1, Math.max(0, 1 - depth))
}

/** Voltage without load at usable state `state`. */
export function openCircuit_V(cell: Cell, state: number, temperature_C: number): number {
  return valueAt(cell.openCircuit_V, state) + cell.openCircuit_V_per_K * (temperature_C - REFERENCE_C)
}

/** Resistance, all that makes the voltage fall under load within seconds; it doubles at `cell.resistanceAgeing`. */
export function resistance_Ohm(cell: Cell, state: number, temperature_C: number, fade: number): number {
  const new_Ohm = valueAt(cell.resistance_Ohm, state) * valueAt(cell.resistanceFactor, temperature_C)
  return new_Ohm * (1 + fade / cell.resistanceAgeing)
}

/** Voltage at the terminals under `current_A`, positive out of the cell. */
export function loaded_V(
  cell: Cell,
  state: number,
  temperature_C: number,
  fade: number,
  current_A: number,
): number {
  return (
    openCircuit_V(cell, state, temperature_C) - current_A * resistance_Ohm(cell, state, temperature_C, fade)
  )
}
