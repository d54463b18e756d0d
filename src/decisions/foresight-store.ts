/**
 * A plan and its weather as the store of `foresight.ts`, each number at the end that favours the ideal: charging at the
 * lowest voltage at which the device is up, with no taper; loads at the voltage where they draw least; the cell as fresh as
 * it starts; the bound well as ready as the free one. What does not depend on the rule (the charge window, self-discharge,
 * the dark hours, what cold locks in) is as in the engine.
 */
import { LOW_C, type Plan, RESISTANCE_CELLS, TEMPERATURE_CELLS, VOLTAGE_CELLS } from '../outlook/plan.ts'
import { DARK_W_m2 } from '../outlook/step.ts'
import { tableCurrent } from '../supply/panel-table.ts'
import type { Store } from './foresight.ts'

/** Fewest and most wakes in a step that a rule may choose. */
export interface Range {
  readonly least: number
  readonly most: number
}

export function storeOf(
  plan: Plan,
  light: Float64Array,
  air: Float64Array,
  { least, most }: Range,
  mayStop: boolean,
): Store {
  const { charging, step_s, byTemperature } = plan
  const steps = light.length
  const capacity_C = plan.capacity_C * (1 - plan.initialFade)
  const up_V = lowestUp_V(plan)
  const draw = drawFrom(plan, up_V)
  const rest_A = mayStop ? Math.min(draw.rest_A, plan.down_A) : draw.rest_A
  const kept = new Float64Array(steps)
  const gain_C = new Float64Array(steps)
  const load_C = new Float64Array(steps)
  const usable = new Float64Array(steps)
  let fade =
    plan.initialFade + plan.cycleFade_per_C * steps * (draw.mostRest_A * step_s + most * draw.mostWake_C)
  for (let t = 0; t < steps; t++) {
    const temperature_C = air[t] + light[t] * plan.enclosureRise_K_m2_W
    const at = Math.min(Math.max(temperature_C - LOW_C, 0), TEMPERATURE_CELLS - 1e-9)
    const row = 4 * Math.floor(at)
    const part = at - Math.floor(at)
    const table = (column: number) =>
      byTemperature[row + column] + part * (byTemperature[row + 4 + column] - byTemperature[row + column])
    usable[t] = table(0)
    kept[t] = table(2)
    fade += table(3)
    load_C[t] = rest_A * step_s
    if (charging === null) continue
    const lit = light[t] * charging.clean
    if (lit < DARK_W_m2) load_C[t] += charging.night_A * step_s
    else if (temperature_C >= charging.low_C && temperature_C <= charging.high_C) {
      const panel_C = air[t] + lit * charging.panelRise_K_m2_W
      const empty_V = plan.byState[0] + plan.openCircuit_V_per_K * (temperature_C - 20)
      const low_V = mayStop ? empty_V : Math.max(empty_V, up_V)
      const current_A =
        charging.converter * tableCurrent(charging.panel, lit, panel_C, low_V + charging.drop_V)
      gain_C[t] = charging.coulombicEfficiency * Math.min(current_A, charging.limit_A) * step_s
    }
  }
  // Below this head the cold cell counts as empty; both wells hold at least the share of the free one.
  const leastCapacity_C = plan.capacity_C * Math.max(1 - fade, 0)
  return {
    initial_C: plan.initialCharge_C,
    full_C: Math.max((charging?.fullState ?? 1) * capacity_C, plan.initialCharge_C),
    kept,
    gain_C,
    load_C,
    floor_C: usable.map((share) => plan.available * (1 - share) * leastCapacity_C),
    wake_C: draw.wake_C,
    least,
    most,
  }
}

/** The least open-circuit voltage at which any cell, however stiff, holds a wake up. */
function lowestUp_V({ byResistance }: Plan): number {
  let least = Infinity
  for (let r = 0; r <= RESISTANCE_CELLS; r++) least = Math.min(least, byResistance[2 * r])
  return least
}

/** Least and most that rest and one wake draw at `from_V` and above; the table is linear between its nodes. */
function drawFrom({ byVoltage, voltageLow_V, voltageStep_V }: Plan, from_V: number) {
  const at = Math.min(Math.max((from_V - voltageLow_V) / voltageStep_V, 0), VOLTAGE_CELLS - 1e-9)
  const cell = Math.floor(at)
  const values = (column: number) => {
    const first = byVoltage[2 * cell + column]
    const next = byVoltage[2 * cell + 2 + column]
    const above = Array.from(
      { length: VOLTAGE_CELLS - cell },
      (_, i) => byVoltage[2 * (cell + 1 + i) + column],
    )
    return [first + (at - cell) * (next - first), ...above]
  }
  const rest = values(0)
  const wake = values(1)
  return {
    rest_A: Math.min(...rest),
    mostRest_A: Math.max(...rest),
    wake_C: Math.min(...wake),
    mostWake_C: Math.max(...wake),
  }
}
