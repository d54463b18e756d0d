/** Why a device went down, told apart by asking what would have kept it up. */
import { LOW_C, type Plan, RESISTANCE_CELLS, STATE_CELLS, TEMPERATURE_CELLS } from './plan.ts'
import type { Fall } from './state.ts'

export const CAUSES = ['empty', 'brown-out under the peak', 'cold', 'too old', 'flash worn out'] as const
export type Cause = (typeof CAUSES)[number]

/** With a fifth of its capacity gone a cell counts as at the end of its life (common practice). */
export const END_OF_LIFE = 0.2
/** Mild weather: the temperature at which data sheets rate a cell. */
const MILD_C = 20
/** A cell that is warmer than this is not cold, whatever it would have borne in milder weather (our choice). */
const COLD_C = 5
/** Cold is to blame only where it keeps so much of the capacity from being taken out. */
const COLD_HOLDS_BACK = 0.15
/** With less than this left, a wake that was too much only came a little before the end. */
const NEARLY_EMPTY = 0.05

/**
 * `too old`: at the end of its life, and a cell that had not faded would have held with the same charge taken. `cold`: in
 * mild weather the same cell, as old, would have gone on until at least half of the charge that was left, and a fair share of
 * its capacity, had been taken too; one that holds only a little longer there is too weak for its wakes anyway.
 * `brown-out under the peak`: there was charge left, and only the wakes were too much. Otherwise `empty`.
 */
export function causeOf(plan: Plan, fall: Fall): Cause {
  const unfaded = 1 - (1 - fall.head) * (1 - fall.fade)
  if (fall.fade >= END_OF_LIFE && holds(plan, unfaded, fall.temperature_C, 0)) return 'too old'
  const further = Math.max(fall.head / 2, COLD_HOLDS_BACK)
  if (fall.temperature_C < COLD_C && holds(plan, fall.head - further, MILD_C, fall.fade)) return 'cold'
  return fall.restHeld && fall.state > NEARLY_EMPTY ? 'brown-out under the peak' : 'empty'
}

/** Whether the device would stay up awake, with the available well at `head`: as the step function asks it. */
function holds(plan: Plan, head: number, temperature_C: number, fade: number): boolean {
  const { byTemperature, byState, byResistance } = plan
  const t = temperature_C - LOW_C
  const s = 1 - (1 - head) / between(byTemperature, 4, 0, t, TEMPERATURE_CELLS)
  if (s <= 0) return false
  const place = s * STATE_CELLS
  const open_V = between(byState, 2, 0, place, STATE_CELLS) + plan.openCircuit_V_per_K * (temperature_C - 20)
  const resistance_Ohm =
    between(byState, 2, 1, place, STATE_CELLS) *
    between(byTemperature, 4, 1, t, TEMPERATURE_CELLS) *
    (1 + fade / plan.resistanceAgeing)
  const rung = RESISTANCE_CELLS * Math.sqrt(resistance_Ohm / plan.resistanceTop_Ohm)
  return open_V >= between(byResistance, 2, 0, rung, RESISTANCE_CELLS)
}

/** Column `column` of a table of rows of `width`, on the line between the nodes 0..`cells` around `place`. */
function between(table: Float64Array, width: number, column: number, place: number, cells: number): number {
  const held = Math.min(Math.max(place, 0), cells)
  const node = Math.min(Math.floor(held), cells - 1)
  const low = table[width * node + column]
  return low + (held - node) * (table[width * (node + 1) + column] - low)
}
