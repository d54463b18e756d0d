/** One plan through a weather that is there already, with nothing kept but how each winter ended. */
import type { Plan } from '../outlook/plan.ts'
import { initialState } from '../outlook/state.ts'
import { advance } from '../outlook/step.ts'
import { DAYS } from '../sky/calendar.ts'

export interface WeatherPlayed {
  /** W/m² on the panel's plane and °C, a value a step from day `cutDay` of the year on. */
  readonly light: Float64Array
  readonly air: Float64Array
  readonly perDay: number
  readonly cutDay: number
  /** After so many days the flash is worn out; Infinity where none wears. */
  readonly flashLife_days: number
  /** The year in which it first goes down is the last. */
  readonly endsWhenDown: boolean
}

export interface WintersPlayed {
  readonly winters: number
  readonly survived: number
  /** Up without a break for as long as the weather goes. */
  readonly neverDown: boolean
}

/**
 * Counts as `playRun` of the outlook does: a winter year counts as survived when all of it was played and the device was
 * never down in it.
 */
export function playWinters(plan: Plan, weather: WeatherPlayed): WintersPlayed {
  const { light, air, perDay, cutDay, flashLife_days, endsWhenDown } = weather
  const state = initialState(plan)
  const given = light.length / perDay
  const lasts = Math.min(given, Math.ceil(flashLife_days))
  let winters = 0
  let survived = 0
  for (let begins = 0; begins < lasts; begins += DAYS) {
    const ends = Math.min(begins + DAYS, lasts)
    const before = state.downSteps
    // A winter year runs on over the end of the calendar's.
    const turns = Math.min(begins + DAYS - cutDay, ends)
    play(begins, turns, cutDay)
    play(turns, ends, 0)
    winters++
    if (ends === begins + DAYS && state.downSteps === before) survived++
    if (endsWhenDown && state.downSteps > 0) break
  }
  // Once the flash is worn out, nothing works any more.
  if (lasts < given && !endsWhenDown) winters = given / DAYS
  return { winters, survived, neverDown: state.downSteps === 0 && lasts === given }

  function play(from: number, to: number, ofYear: number): void {
    if (to <= from) return
    const steps = [from * perDay, to * perDay] as const
    advance(plan, state, light.subarray(...steps), air.subarray(...steps), ofYear * perDay)
  }
}
