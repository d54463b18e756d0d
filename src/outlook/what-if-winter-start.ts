/**
 * With what charge and of what age a device comes to the winter of a later year: the years before it are played in
 * weeks, under the weather of that same winter, and their last fortnight in the steps of the winter itself. Nothing of
 * them is counted.
 */
import type { Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import { inSteps } from './compile.ts'
import { inOneShape, type Plan } from './plan.ts'
import { initialState } from './state.ts'
import { advance } from './step.ts'
import { WEEKS, type WinterSky } from './what-if-winter-sky.ts'

const WEEK_s = (DAYS * 86_400) / WEEKS
const LAST_DAYS = 14

/** Called with a number of years, never fewer than before: charge and age of the cell after them. */
export function yearsBefore(
  plan: Plan,
  { supply }: Outpost<number>,
  rows: readonly ExpectedWakes[],
  { light, air, weekLight, weekAir }: WinterSky,
): (years: number) => Begun {
  const weekly = inSteps(plan, supply.pack, rows, WEEK_s)
  const even = inSteps(plan, supply.pack, rows, plan.step_s)
  const weeks = initialState(plan)
  const last = Math.round((LAST_DAYS / DAYS) * light.length)
  let played = 0
  return (years) => {
    for (; played < years; played++) advance(weekly, weeks, weekLight, weekAir, 0)
    // A small pack is emptied and filled within a week, of which the week's step knows nothing: the end is played finely.
    const end = { ...weeks, fall: { ...weeks.fall } }
    advance(even, end, Float64Array.from(light.slice(-last)), Float64Array.from(air.slice(-last)), 0)
    return { charge_C: end.charge_C, fade: end.fade }
  }
}

export interface Begun {
  readonly charge_C: number
  readonly fade: number
}

/** The plan with the cell as it stands after those years. */
export const beginningAt = (plan: Plan, { charge_C, fade }: Begun): Plan =>
  inOneShape({ ...plan, initialCharge_C: charge_C, initialFade: fade })
