/** Why a device went down, told apart by asking what would have kept it up. */
import { LOW_C, type Plan, STATE_CELLS, TEMPERATURE_CELLS } from './plan.ts'
import type { Fall } from './state.ts'

export const CAUSES = ['empty', 'brown-out under the peak', 'cold', 'too old', 'flash worn out'] as const
export type Cause = (typeof CAUSES)[number]

/**
 * `cold`: at 20 °C the same cell would have held. `too old`: the same charge taken from a cell that had not faded
 * would have. `brown-out under the peak`: only the wakes were too much. Otherwise it is `empty`.
 */
export function causeOf(plan: Plan, fall: Fall): Cause {
  if (fall.temperature_C < 20 && holds(plan, fall.head, 20, fall.fade)) return 'cold'
  if (fall.fade > 0 && holds(plan, 1 - (1 - fall.head) * (1 - fall.fade), fall.temperature_C, 0)) return 'too old'
  return fall.restOnly ? 'brown-out under the peak' : 'empty'
}

/** Whether the device would stay up awake, with the available well at `head`; nearest nodes of the tables suffice. */
function holds(plan: Plan, head: number, temperature_C: number, fade: number): boolean {
  const row = 4 * Math.round(Math.min(Math.max(temperature_C - LOW_C, 0), TEMPERATURE_CELLS))
  const s = 1 - (1 - head) / plan.byTemperature[row]
  if (s <= 0) return false
  const node = 2 * Math.round(Math.min(s, 1) * STATE_CELLS)
  const open_V = plan.byState[node] + plan.openCircuit_V_per_K * (temperature_C - 20)
  const resistance = plan.byState[node + 1] * plan.byTemperature[row + 1] * (1 + fade / plan.resistanceAgeing)
  const rung = Math.min(Math.ceil(resistance / plan.resistanceStep_Ohm), plan.byResistance.length / 2 - 1)
  return open_V >= plan.byResistance[2 * rung]
}
