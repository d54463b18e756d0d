/**
 * The off-grid trade's sum on paper: does the panel in the worst month give more than the device takes, and for how many
 * days does the cell last without any sun? No weather, no voltage, no cold lock-out, no ageing: what a practitioner
 * would reckon before simulating, kept beside the simulation for comparison.
 *
 * The terms are those of IEEE Std 1562, from memory: array-to-load ratio, days of autonomy. Coulombs at the pack.
 */
import { valueAt } from '../numeric/curve.ts'
import { dayBudget_C } from '../outlook/budget.ts'
import { dayOnPlane, onGround, planeOf } from '../outlook/plane.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { MONTH_LENGTHS, MONTH_STARTS } from '../sky/calendar.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { packAsCell } from '../supply/cell-pack.ts'

/** Targets for a device that nobody visits in winter; common practice, from memory. */
export const USUAL_ARRAY_TO_LOAD = 1.3
export const USUAL_AUTONOMY_days = 10
/** How deep the sum lets a cell be emptied; common practice, from memory. */
const MOST_DEPTH = 0.8
const STANDARD_W_m2 = 1000

export interface OffGridSum {
  /** Charge a day that the device takes, self-discharge not included. */
  readonly load_C: number
  /** Charge that the cell can give without sun, in the cold of its coldest month. */
  readonly usable_C: number
  readonly autonomy_days: number
  /** Null without a panel. */
  readonly array: {
    /** 0 for January. */
    readonly worstMonth: number
    /** Mean daily light on the plane in it, J/m². */
    readonly light_J_m2: number
    readonly charge_C: number
    readonly toLoad: number
  } | null
}

/** The sum for a design at its best values that wakes so many times a day on average. */
export function offGridSum(outpost: Outpost<number>, wakesPerDay: number): OffGridSum {
  const cell = packAsCell(outpost.supply.pack)
  const coldest_C = Math.min(...outpost.place.climate.temperature_C)
  const usable_C = MOST_DEPTH * cell.capacity_C * valueAt(cell.capacityFactor, coldest_C)
  const load_C = dayBudget_C(outpost, wakesPerDay)
    .slice(0, -1) // the last part is self-discharge
    .reduce((sum, part) => sum + part, 0)
  return { load_C, usable_C, autonomy_days: usable_C / load_C, array: arrayOf(outpost, load_C) }
}

function arrayOf(outpost: Outpost<number>, load_C: number): OffGridSum['array'] {
  const perSun_A = currentPerSun_A(outpost)
  if (perSun_A === null) return null
  const byMonth = monthlyLight_J_m2(outpost)
  const light_J_m2 = Math.min(...byMonth)
  // Seconds of full sun a day ("peak sun hours") times what the panel gives in full sun.
  const charge_C = perSun_A * (light_J_m2 / STANDARD_W_m2) * (1 - outpost.place.soiling)
  return { worstMonth: byMonth.indexOf(light_J_m2), light_J_m2, charge_C, toLoad: charge_C / load_C }
}

/** Current into the pack in full sun, less what the cell does not give back; null where nothing charges it. */
function currentPerSun_A({ supply }: Outpost<number>): number | null {
  const { panel, charger, pack } = supply
  const cell = packAsCell(pack)
  if (panel === null || charger === null || cell.charging === null) return null
  const panel_A =
    charger.kind === 'maximum-power'
      ? (panel.maximumPower_V * panel.maximumPower_A * charger.efficiency) / valueAt(cell.openCircuit_V, 0.5)
      : panel.maximumPower_A
  return panel_A * cell.charging.coulombicEfficiency
}

/** Mean daily light on the panel's plane, month by month, every day at its month's mean clearness. */
function monthlyLight_J_m2({ place }: Outpost<number>): number[] {
  const plane = onGround(planeOf(place, dayShapes(place, 1)), place)
  const light = new Float64Array(24)
  return MONTH_LENGTHS.map((days, month) => {
    let sum = 0
    for (let day = MONTH_STARTS[month]; day < MONTH_STARTS[month] + days; day++) {
      dayOnPlane(plane, day, place.climate.clearness[month], light)
      sum += light.reduce((total, w) => total + w * 3600, 0)
    }
    return sum / days
  })
}
