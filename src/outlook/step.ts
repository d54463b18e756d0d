/**
 * The step function: what the sky gives and the device takes in one step of time, for a run of steps. Every run of
 * every ensemble spends its time here, so it reads flat tables, keeps its state in locals and allocates nothing.
 *
 * Explicit in time: the voltage at the start of a step decides its currents. The kinetic wells are advanced exactly
 * for those currents (Manwell & McGowan 1993).
 */
import { tableCurrent } from '../supply/panel-table.ts'
import { LOW_C, type Plan, RESISTANCE_CELLS, STATE_CELLS, TEMPERATURE_CELLS, VOLTAGE_CELLS } from './plan.ts'
import type { State } from './state.ts'

/** Below this irradiance on the panel, in W/m², the charger counts as dark. */
export const DARK_W_m2 = 1

/** Ageing stops here, long after the cell has become useless, so that a capacity to divide by is left. */
const MOST_FADE = 0.95

/**
 * Advances `state` through `light.length` steps from step `at` of the year. `light` is the irradiance on the panel's
 * plane in W/m², `air` the air temperature in °C, one value a step; they must be alike in length.
 */
export function advance(plan: Plan, state: State, light: Float64Array, air: Float64Array, at: number): void {
  const { byState, byTemperature, byVoltage, byResistance, charging, rows } = plan
  const { step_s, available, keep, share, give_s, cycleFade_per_C, voltageLow_V } = plan
  const { openCircuit_V_per_K, enclosureRise_K_m2_W } = plan
  // A product takes a fraction of the time of a quotient, and each step waits for the one before.
  const perAvailable_C = 1 / (available * plan.capacity_C)
  const perAgeing = 1 / plan.resistanceAgeing
  const perResistanceTop_Ohm = 1 / plan.resistanceTop_Ohm
  const perVoltageStep_V = 1 / plan.voltageStep_V
  const perStep_s = 1 / step_s
  const perGive_s = 1 / give_s
  // In locals, because a fraction that is kept in an object is put away anew at every change.
  let { available_C: y1, charge_C: q, fade, down, row, wakes: woken, margin_V, lowestState } = state
  let { in_C, out_C, selfLoss_C, coulombicLoss_C, fadeLoss_C } = state
  for (let i = 0; i < light.length; i++) {
    const lit = charging === null ? 0 : light[i] * charging.clean
    const temperature = air[i] + light[i] * enclosureRise_K_m2_W

    const warmth = within(temperature - LOW_C, TEMPERATURE_CELLS - 1e-9)
    const t = warmth | 0
    const tf = warmth - t
    const t0 = 4 * t
    const usable = byTemperature[t0] + tf * (byTemperature[t0 + 4] - byTemperature[t0])
    const stiffness = byTemperature[t0 + 1] + tf * (byTemperature[t0 + 5] - byTemperature[t0 + 1])
    const kept = byTemperature[t0 + 2] + tf * (byTemperature[t0 + 6] - byTemperature[t0 + 2])
    const aged = byTemperature[t0 + 3] + tf * (byTemperature[t0 + 7] - byTemperature[t0 + 3])

    // State as the cold cell shows it: the same charge taken looks deeper where less can be taken out.
    const perWhole = 1 / (1 - fade)
    const head = y1 * perAvailable_C * perWhole
    const depth = (1 - head) / usable
    const s = depth < 0 ? 1 : depth > 1 ? 0 : 1 - depth
    const place = s * (STATE_CELLS - 1e-9)
    const p = place | 0
    const pf = place - p
    const p0 = 2 * p
    const open = byState[p0] + pf * (byState[p0 + 2] - byState[p0]) + openCircuit_V_per_K * (temperature - 20)
    const resistance =
      (byState[p0 + 1] + pf * (byState[p0 + 3] - byState[p0 + 1])) * stiffness * (1 + fade * perAgeing)

    const rung = within(
      RESISTANCE_CELLS * Math.sqrt(resistance * perResistanceTop_Ohm),
      RESISTANCE_CELLS - 1e-9,
    )
    const r = rung | 0
    const rf = rung - r
    const r0 = 2 * r
    const neededAwake = byResistance[r0] + rf * (byResistance[r0 + 2] - byResistance[r0])
    const neededAtRest = byResistance[r0 + 1] + rf * (byResistance[r0 + 3] - byResistance[r0 + 1])

    const volts = within((open - voltageLow_V) * perVoltageStep_V, VOLTAGE_CELLS - 1e-9)
    const v = volts | 0
    const vf = volts - v
    const v0 = 2 * v
    const rest_A = byVoltage[v0] + vf * (byVoltage[v0 + 2] - byVoltage[v0])
    const extra_C = byVoltage[v0 + 1] + vf * (byVoltage[v0 + 3] - byVoltage[v0 + 1])

    if (rows.length > 1) {
      const measured = open - rest_A * resistance
      while (row + 1 < rows.length && measured < rows[row + 1].below_V) row++
      while (row > 0 && measured > rows[row].below_V + rows[row].hysteresis_V) row--
    }
    const { pattern, wakesPerStep } = rows[row]
    const wakes = pattern === null ? wakesPerStep : pattern[at + i]

    const needed = wakes > 0 && neededAwake > neededAtRest ? neededAwake : neededAtRest
    if (down) {
      if (s > 0 && open >= plan.restart_V && open >= needed) down = false
    } else if (s <= 0 || open < needed) {
      down = true
      state.deaths++
      state.wentDownAt = i
      state.fall.head = head
      state.fall.temperature_C = temperature
      state.fall.fade = fade
      state.fall.state = s
      state.fall.restHeld = open >= neededAtRest
    }

    let load_A: number
    if (down) {
      load_A = plan.down_A
      state.missedWakes += wakes
      state.downSteps++
    } else {
      load_A = rest_A + wakes * extra_C * perStep_s
      woken += wakes
      if (open - needed < margin_V) margin_V = open - needed
    }
    if (s < lowestState) lowestState = s

    const left = q * kept
    selfLoss_C += q - left
    y1 *= kept
    q = left

    let charge_A = 0
    let efficiency = 1
    if (charging !== null) {
      efficiency = charging.coulombicEfficiency
      if (lit < DARK_W_m2) load_A += charging.night_A
      else if (temperature >= charging.low_C && temperature <= charging.high_C) {
        const panel_C = air[i] + lit * charging.panelRise_K_m2_W
        charge_A = charging.converter * tableCurrent(charging.panel, lit, panel_C, open + charging.drop_V)
        const taper_A = (charging.full_V - open) / resistance
        charge_A = Math.max(Math.min(charge_A, charging.limit_A, taper_A), 0)
      }
    }

    // Neither well may be filled past full, nor emptied past nothing, within the step.
    const ahead = keep * y1 + share * q
    let net_A = load_A - efficiency * charge_A
    if (charge_A > 0 && charging !== null) {
      const full = charging.fullState * plan.capacity_C * (1 - fade)
      const least = Math.max((q - full) * perStep_s, (ahead - available * full) * perGive_s)
      if (net_A < least) {
        net_A = Math.min(least, load_A)
        charge_A = (load_A - net_A) / efficiency
      }
    }
    const most = Math.min(q * perStep_s, ahead * perGive_s)
    if (net_A > most) {
      net_A = most
      load_A = net_A + efficiency * charge_A
    }
    y1 = ahead - give_s * net_A
    q -= net_A * step_s
    in_C += charge_A * step_s
    out_C += load_A * step_s
    coulombicLoss_C += (1 - efficiency) * charge_A * step_s

    const worn = Math.min(aged + cycleFade_per_C * load_A * step_s, MOST_FADE - fade)
    if (worn > 0) {
      const gone = worn * perWhole
      fadeLoss_C += q * gone
      q -= q * gone
      y1 -= y1 * gone
      fade += worn
    }
  }
  state.available_C = y1
  state.charge_C = q
  state.fade = fade
  state.down = down
  state.row = row
  state.wakes = woken
  state.margin_V = margin_V
  state.lowestState = lowestState
  state.in_C = in_C
  state.out_C = out_C
  state.selfLoss_C = selfLoss_C
  state.coulombicLoss_C = coulombicLoss_C
  state.fadeLoss_C = fadeLoss_C
}

/** `x` held to 0..top; a comparison each, where Math.min and Math.max also mind signed zeros and NaN. */
// biome-ignore lint/complexity/useMathMinMax: measured, a tenth of the step's time
const within = (x: number, top: number): number => (x < 0 ? 0 : x > top ? top : x)
