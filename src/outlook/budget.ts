/** Where a day's charge goes: steps, rest, drains and the supply's own losses, in C at the pack's terminals. */
import type { Outpost } from '../outpost/outpost.ts'
import { openCircuit_V, resistance_Ohm } from '../supply/cell.ts'
import { packAsCell } from '../supply/cell-pack.ts'
import { selfDischargeRate_per_s } from '../supply/self-discharge.ts'
import { momentsOf } from '../wake/moments.ts'
import { stepsOf } from '../wake/outcomes.ts'
import { extraByStep_C, packCurrent_A, standing } from './load.ts'
import type { BudgetPart } from './outlook.ts'
import type { Tally } from './tally.ts'

const DAY_s = 86_400
/** The cell half full: the voltage at which the budget is drawn up. */
const STATE = 0.5
/** The share of the day in which a charger sees no light, over the year. */
const DARK_SHARE = 0.5

/** The parts, in the order of `dayBudget_C`'s values. */
export function budgetParts(outpost: Outpost<unknown>): Pick<BudgetPart, 'name' | 'kind'>[] {
  const { wake, supply } = outpost
  return [
    ...stepsOf(wake).map(({ name }) => ({ name, kind: 'step' as const })),
    { name: 'rest', kind: 'rest' },
    ...wake.standing.map(({ name }) => ({ name, kind: 'standing' as const })),
    ...(supply.regulator.kind === 'none' ? [] : [{ name: 'regulator, idle', kind: 'supply' as const }]),
    ...(supply.capacitor === null ? [] : [{ name: 'capacitor leakage', kind: 'supply' as const }]),
    ...(supply.charger === null ? [] : [{ name: 'charger at night', kind: 'supply' as const }]),
    { name: 'self-discharge', kind: 'supply' },
  ]
}

/** Charge a day by part, at `wakesPerDay` and the year's mean temperature. */
export function dayBudget_C(outpost: Outpost<number>, wakesPerDay: number): number[] {
  const { wake, supply, place } = outpost
  const cell = packAsCell(supply.pack)
  const temperature_C = place.climate.temperature_C.reduce((sum, t) => sum + t, 0) / 12
  const open_V = openCircuit_V(cell, STATE, temperature_C)
  const resistance = resistance_Ohm(cell, STATE, temperature_C, 0)
  const loaded = (current_A: number) => Math.max(open_V - current_A * resistance, open_V / 2)
  const drains = standing(wake, supply)
  const idle_A = packCurrent_A(supply, { rail_A: 0, pack_A: 0 }, 0, open_V)
  const rail_A = drains.rail_A + wake.rest_A
  // What flows behind the regulator is its own idle current and, beyond that, in proportion to the rail's currents.
  const perRail =
    rail_A > 0 ? (packCurrent_A(supply, drains, wake.rest_A, open_V) - drains.pack_A - idle_A) / rail_A : 1
  const charger_A = supply.charger === null ? 0 : supply.charger.quiescent_A * DARK_SHARE
  const moments = momentsOf(wake)
  const restAlone_A = wake.rest_A * perRail
  // A step's own charge is what it adds to rest, and what rest would have taken meanwhile.
  const steps = extraByStep_C(wake, supply, moments, loaded).map(
    (extra_C, i) => (extra_C + restAlone_A * moments.steps[i].spread.duration_s) * wakesPerDay,
  )
  return [
    ...steps,
    restAlone_A * (DAY_s - wakesPerDay * moments.total.duration_s),
    ...wake.standing.map((drain) => drain.current_A * (drain.from === 'cell' ? 1 : perRail) * DAY_s),
    ...(supply.regulator.kind === 'none' ? [] : [idle_A * DAY_s]),
    ...(supply.capacitor === null ? [] : [supply.capacitor.leakage_A * DAY_s]),
    ...(supply.charger === null ? [] : [charger_A * DAY_s]),
    selfDischargeRate_per_s(cell, temperature_C) * STATE * cell.capacity_C * DAY_s,
  ]
}

/** Adds a run's budget to the sums of a tally. */
export function addBudget({ grids }: Tally, budget_C: readonly number[]): void {
  for (const [i, charge_C] of budget_C.entries()) {
    grids.budget[i] += charge_C
    grids.budgetSquared[i] += charge_C * charge_C
  }
}
