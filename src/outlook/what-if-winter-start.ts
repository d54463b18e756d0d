/**
 * With what charge and of what age a device comes to the winter of a later year: the years before it are played in
 * steps of a week, under the weather of that same winter, and their last fortnight in the steps of the winter itself. Nothing of
 * them is counted.
 */
import type { Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import { inSteps } from './compile.ts'
import { inOneShape, type Plan } from './plan.ts'
import { copyOf, initialState } from './state.ts'
import { advance } from './step.ts'
import { PARTS } from './what-if-winter-parts.ts'
import type { WinterSky } from './what-if-winter-sky.ts'

const PART_s = (DAYS * 86_400) / PARTS
const LAST_DAYS = 14
/** The pack of a week's step carries the device for so long: a dark week, even when it is old and cold. */
const PATIENCE_DAYS = 21

export interface YearsBefore {
  /** Share of the capacity lost after so many years; never fewer than were asked for before. */
  fadeAfter(years: number): number
  /** The plan of a winter that begins after so many years, its cell as they leave it; years as above. */
  planAfter(years: number): Plan
}

/** `patience_days`: for how long the pack alone carries the device. */
export function yearsBefore(
  plan: Plan,
  { supply }: Outpost<number>,
  rows: readonly ExpectedWakes[],
  { light, air, partLight, partAir }: WinterSky,
  patience_days: number,
): YearsBefore {
  // A small pack is emptied and filled within a week, and again, of which a week's step knows nothing: it would stand empty
  // and age too little. A larger one that ages by the same charge taken out does not.
  const times = Math.max(1, PATIENCE_DAYS / patience_days)
  const parts = enlarged(inSteps(plan, supply.pack, rows, PART_s), times)
  const state = initialState(parts)
  let played = 0
  const play = (years: number) => {
    for (; played < years; played++) advance(parts, state, partLight, partAir, 0)
  }
  return {
    fadeAfter(years) {
      play(years)
      return state.fade
    },
    planAfter(years) {
      if (years === 0) return plan
      play(years)
      // How full it is, the weeks cannot tell: the end is played finely.
      const even = inSteps(plan, supply.pack, rows, plan.step_s)
      const end = copyOf(plan, state)
      end.charge_C /= times
      end.available_C /= times
      const steps = Math.round((LAST_DAYS / DAYS) * light.length)
      advance(even, end, Float64Array.from(light.slice(-steps)), Float64Array.from(air.slice(-steps)), 0)
      return inOneShape({ ...plan, initialCharge_C: end.charge_C, initialFade: end.fade })
    },
  }
}

/** With so many times the charge; what a coulomb taken out costs in age stays as it is. */
const enlarged = (plan: Plan, times: number): Plan =>
  inOneShape({
    ...plan,
    capacity_C: plan.capacity_C * times,
    initialCharge_C: plan.initialCharge_C * times,
  })
