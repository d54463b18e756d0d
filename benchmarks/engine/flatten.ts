/** A plan and its sky as one file of doubles, in the order in which step.c and step.py read them. */
import { closeSync, openSync, writeSync } from 'node:fs'
import type { Plan } from '../../src/outlook/plan.ts'
import type { State } from '../../src/outlook/state.ts'

export interface FlatSky {
  /** One array a run, alike in length: W/m² on the panel's plane, and air in °C. */
  readonly light: readonly Float64Array[]
  readonly air: readonly Float64Array[]
}

/** Throws RangeError on a plan without a panel or with a thrift table or a pattern of wakes: the twins know neither. */
export function writeFlat(path: string, plan: Plan, { light, air }: FlatSky): void {
  const { charging, rows } = plan
  if (charging === null || rows.length !== 1 || rows[0].pattern !== null)
    throw new RangeError('the twins play a panel and one steady cadence')
  const { panel } = charging
  const header = [
    light.length,
    light[0].length,
    plan.step_s,
    plan.capacity_C,
    plan.initialCharge_C,
    plan.initialFade,
    plan.available,
    plan.keep,
    plan.share,
    plan.give_s,
    plan.openCircuit_V_per_K,
    plan.resistanceAgeing,
    plan.cycleFade_per_C,
    plan.voltageLow_V,
    plan.voltageStep_V,
    plan.resistanceTop_Ohm,
    plan.down_A,
    plan.restart_V,
    plan.enclosureRise_K_m2_W,
    rows[0].wakesPerStep,
    charging.panelRise_K_m2_W,
    charging.clean,
    charging.low_C,
    charging.high_C,
    charging.full_V,
    charging.fullState,
    charging.coulombicEfficiency,
    charging.limit_A,
    charging.night_A,
    charging.drop_V,
    charging.converter,
    panel.holds === 'power' ? 1 : 0,
    panel.lightTop_W_m2,
    panel.lightCells,
    panel.low_C,
    panel.step_K,
    panel.temperatureCells,
    panel.low_V,
    panel.step_V,
    panel.voltageCells,
  ]
  const tables = [plan.byState, plan.byTemperature, plan.byVoltage, plan.byResistance, panel.values]
  const file = openSync(path, 'w')
  for (const part of [Float64Array.from(header), ...tables, ...light, ...air])
    writeSync(file, new Uint8Array(part.buffer, part.byteOffset, part.byteLength))
  closeSync(file)
}

/** A run's end state in the order in which the twins write it. */
export const flatState = (s: State): number[] => [
  s.available_C,
  s.charge_C,
  s.fade,
  s.in_C,
  s.out_C,
  s.coulombicLoss_C,
  s.selfLoss_C,
  s.fadeLoss_C,
  s.wakes,
  s.missedWakes,
  s.downSteps,
  s.deaths,
]
