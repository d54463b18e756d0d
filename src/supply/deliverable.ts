/**
 * How much of a full cell a constant current gets out, in closed form: until the usable state is 0, or the voltage under
 * that current has fallen to an end. Amperes, coulombs, volts, °C. Self-discharge is left out, which shows where the
 * discharge takes months.
 */
import { valueAt } from '../numeric/curve.ts'
import { loaded_V } from './cell.ts'
import { timeToEmpty } from './kinetic.ts'
import type { Cell } from './supply.ts'

/** Charge delivered at `current_A` > 0 (RangeError otherwise) and one temperature, by a cell that lost the share `fade`. */
export function deliverable_C(
  cell: Cell,
  current_A: number,
  temperature_C: number,
  fade: number,
  end_V: number,
): number {
  if (!(current_A > 0)) throw new RangeError(`a discharge needs a current above zero, not ${current_A} A`)
  const state = endState(cell, current_A, temperature_C, fade, end_V)
  if (state >= 1) return 0
  // The state in which it ends, as a level of the available well: see usableState.
  const head = 1 - (1 - state) * valueAt(cell.capacityFactor, temperature_C)
  const { c, k_per_s } = cell.wells
  const charge_C = cell.capacity_C * (1 - fade)
  return current_A * timeToEmpty(c * charge_C, charge_C, current_A, k_per_s, c, head * c * charge_C)
}

/** The usable state at which the loaded voltage, falling from full, reaches `end_V`; 0 where it never does, 1 at once. */
function endState(cell: Cell, current_A: number, temperature_C: number, fade: number, end_V: number): number {
  const above_V = (state: number) => loaded_V(cell, state, temperature_C, fade, current_A) - end_V
  // Both curves are straight between their points, and so is the loaded voltage.
  const states = [...new Set([...cell.openCircuit_V.x, ...cell.resistance_Ohm.x, 0, 1])]
    .filter((state) => state >= 0 && state <= 1)
    .sort((a, b) => b - a)
  if (above_V(1) <= 0) return 1
  for (const [i, low] of states.slice(1).entries()) {
    const below_V = above_V(low)
    if (below_V > 0) continue
    const high = states[i]
    return low + ((high - low) * -below_V) / (above_V(high) - below_V)
  }
  return 0
}
