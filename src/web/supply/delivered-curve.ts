/** What a full battery delivers at a rate and a temperature, down to where the device stops. Amperes, coulombs, °C. */
import { packCurrent_A, standing } from '../../outlook/load.ts'
import type { Outpost } from '../../outpost/outpost.ts'
import { openCircuit_V } from '../../supply/cell.ts'
import { deliverable_C } from '../../supply/deliverable.ts'
import { stepsOf } from '../../wake/outcomes.ts'
import { leastInput_V, packOf } from './sag-curve.ts'

type Design = Pick<Outpost<number>, 'wake' | 'supply'>

const POINTS = 60
/** Beyond, self-discharge counts for more than rate. */
const SLOWEST_s = 2000 * 3600
const FASTEST_s = 3600

export interface DeliveredCurve {
  readonly temperature_C: number
  readonly points: readonly (readonly [current_A: number, charge_C: number])[]
}

/** The voltage under load at which a discharge is over: the cell's cut-off, or where the device browns out before it. */
export const endVoltage_V = (design: Design): number =>
  Math.max(packOf(design).cell.cutOff_V, leastInput_V(design) ?? Infinity)

/**
 * From a discharge over months, or at the day's mean current where that is less, to one within the hour, or at the
 * device's highest current where that is more.
 */
export function ratesFor(design: Design, mean_A: number | null): readonly [low_A: number, high_A: number] {
  const { cell } = packOf(design)
  const most_A = Math.max(...packCurrents_A(design).map(({ current_A }) => current_A))
  const slow_A = cell.capacity_C / SLOWEST_s
  return [Math.min(slow_A, (mean_A ?? slow_A) / 1.5), Math.max(cell.capacity_C / FASTEST_s, 1.5 * most_A)]
}

export function deliveredCurve(
  design: Design,
  temperature_C: number,
  [low_A, high_A]: readonly [number, number],
): DeliveredCurve {
  const { cell, fade } = packOf(design)
  const end_V = endVoltage_V(design)
  const points = Array.from({ length: POINTS + 1 }, (_, i) => {
    const current_A = low_A * (high_A / low_A) ** (i / POINTS)
    return [current_A, deliverable_C(cell, current_A, temperature_C, fade, end_V)] as const
  })
  return { temperature_C, points }
}

/** What each step draws from the battery, half full and at 20 °C, peaks left out. */
export function packCurrents_A(design: Design): { name: string; current_A: number }[] {
  const { wake, supply } = design
  const open_V = openCircuit_V(packOf(design).cell, 0.5, 20)
  const drains = standing(wake, supply)
  return stepsOf(wake).map(({ name, current_A }) => ({
    name,
    current_A: packCurrent_A(supply, drains, current_A, open_V),
  }))
}
