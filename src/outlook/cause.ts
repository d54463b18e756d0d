/** Why a device went down, told apart by asking what would have kept it up. */
import { LOW_C, type Plan, RESISTANCE_CELLS, STATE_CELLS, TEMPERATURE_CELLS } from './plan.ts'
import type { Fall } from './state.ts'

export const CAUSES = ['empty', 'brown-out under the peak', 'cold', 'too old', 'flash worn out'] as const
export type Cause = (typeof CAUSES)[number]

/** With a fifth of its capacity gone a cell counts as at the end of its life (common practice). */
export const END_OF_LIFE = 0.2
/** Cold is to blame only where it keeps so much of the charge from being taken out. */
const COLD_HOLDS_BACK = 0.15
/** With less than this left, a wake that was too much only came a little before the end. */
const NEARLY_EMPTY = 0.05

/**
 * `too old`: at the end of its life, and a cell that had not faded would have held with the same charge taken. `cold`:
 * at 20 °C the same cell would have, with a fair share of its charge left. `brown-out under the peak`: there was charge left, and only the wakes were too much. Otherwise `empty`.
 */
export function causeOf(plan: Plan, fall: Fall): Cause {
  const unfaded = 1 - (1 - fall.head) * (1 - fall.fade)
  if (fall.fade >= END_OF_LIFE && holds(plan, unfaded, fall.temperature_C, 0)) return 'too old'
  if (fall.temperature_C < 20 && fall.head >= COLD_HOLDS_BACK && holds(plan, fall.head, 20, fall.fade))
    return 'cold'
  return fall.restHeld && fall.state > NEARLY_EMPTY ? 'brown-out under the peak' : 'empty'
}

/** Whether the device would stay up awake, with the available well at `head`; nearest nodes of the tables suffice. */
function holds(plan: Plan, head: number, temperature_C: number, fade: number): boolean {
  const row = 4 * Math.round(Math.min(Math.max(temperature_C - LOW_C, 0), TEMPERATURE_CELLS))
  const s = 1 - (1 - head) / plan.byTemperature[row]
  if (s <= 0) return false
  const node = 2 * Math.round(Math.min(s, 1) * STATE_CELLS)
  const open_V = plan.byState[node] + plan.openCircuit_V_per_K * (temperature_C - 20)
  const resistance = plan.byState[node + 1] * plan.byTemperature[row + 1] * (1 + fade / plan.resistanceAgeing)
  const rung = Math.round(RESISTANCE_CELLS * Math.min(Math.sqrt(resistance / plan.resistanceTop_Ohm), 1))
  return open_V >= plan.byResistance[2 * rung]
}
