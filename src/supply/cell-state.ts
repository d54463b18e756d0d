/** The charge state of a cell, and what one step of time does to it. Coulombs, amperes, seconds, °C. */
import { calendarFade_per_s, cycleFade_per_C, shareLeftByFade } from './ageing.ts'
import { usableState, wellHead } from './cell.ts'
import { availableAfter, chargeAfter, wellFactors } from './kinetic.ts'
import { shareKept } from './self-discharge.ts'
import type { Cell } from './supply.ts'

export interface CellState {
  /** Charge in the available well, and in both. */
  readonly available_C: number
  readonly charge_C: number
  /** Share of the new cell's capacity lost for good, 0..1. */
  readonly fade: number
}

/** At rest for long, holding the share `charged` (0..1) of what it can still hold. */
export function restedState(cell: Cell, charged: number, fade: number): CellState {
  const charge_C = charged * cell.capacity_C * (1 - fade)
  return { available_C: cell.wells.c * charge_C, charge_C, fade }
}

/** Usable state 0..1 at a temperature: see `usableState`. */
export function usableAt(cell: Cell, state: CellState, temperature_C: number): number {
  return usableState(cell, wellHead(cell, state.available_C, cell.capacity_C, state.fade), temperature_C)
}

/** After a constant current, positive out of the cell: the wells in closed form. */
export function afterCurrent(cell: Cell, state: CellState, current_A: number, duration_s: number): CellState {
  const step = wellFactors(duration_s, cell.wells.k_per_s, cell.wells.c)
  return {
    available_C: availableAfter(step, state.available_C, state.charge_C, current_A),
    charge_C: chargeAfter(step, state.charge_C, current_A),
    fade: state.fade,
  }
}

/** After the losses of so much time, in which `out_C` was taken out: self-discharge, and charge in lost capacity. */
export function afterLosses(
  cell: Cell,
  state: CellState,
  out_C: number,
  temperature_C: number,
  duration_s: number,
): CellState {
  const worn = calendarFade_per_s(cell, temperature_C) * duration_s + cycleFade_per_C(cell) * out_C
  const fade = Math.min(1, state.fade + worn)
  const kept = shareKept(cell, temperature_C, duration_s) * shareLeftByFade(state.fade, fade)
  return { available_C: state.available_C * kept, charge_C: state.charge_C * kept, fade }
}
