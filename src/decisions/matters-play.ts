/** One future of one drawn design: how long it lives, or how low its charge gets in a winter. */
import type { Plan } from '../outlook/plan.ts'
import type { SkySource } from '../outlook/sky-source.ts'
import { initialState } from '../outlook/state.ts'
import { advance } from '../outlook/step.ts'
import { DAYS } from '../sky/calendar.ts'

export interface Horizon {
  readonly years: number
  /** Day of the year on which every run begins. */
  readonly cutDay: number
  readonly flashLife_days: number
}

/** Days to the first death, the horizon where it is not met: a life of at least so long. `sky` must have been started. */
export function lifeOf(plan: Plan, sky: SkySource, { years, cutDay, flashLife_days }: Horizon): number {
  const { light, air, perDay } = dayArrays(sky)
  const state = initialState(plan)
  const last = Math.min(years * DAYS, flashLife_days)
  for (let day = 0; day < last; day++) {
    const ofYear = (cutDay + day) % DAYS
    sky.day(ofYear, light, air)
    state.wentDownAt = -1
    advance(plan, state, light, air, ofYear * perDay)
    if (state.deaths > 0) return Math.min(day + state.wentDownAt / perDay, last)
  }
  return last
}

export interface Winter {
  /** Least usable state of charge, 0..1. */
  readonly lowestState: number
  readonly survived: boolean
}

/** The last year of the horizon; those before it only bring the charge to where it would be by then. */
export function winterOf(plan: Plan, sky: SkySource, { years, cutDay, flashLife_days }: Horizon): Winter {
  const { light, air, perDay } = dayArrays(sky)
  const state = initialState(plan)
  let downBefore = 0
  for (let day = 0; day < years * DAYS; day++) {
    if (day >= flashLife_days) return { lowestState: state.lowestState, survived: false }
    if (day === (years - 1) * DAYS) {
      downBefore = state.downSteps
      state.lowestState = 1
    }
    const ofYear = (cutDay + day) % DAYS
    sky.day(ofYear, light, air)
    advance(plan, state, light, air, ofYear * perDay)
  }
  return { lowestState: state.lowestState, survived: state.downSteps === downBefore }
}

function dayArrays({ stepsPerHour }: SkySource) {
  const perDay = 24 * stepsPerHour
  return { light: new Float64Array(perDay), air: new Float64Array(perDay), perDay }
}

/** `sky` once started, kept as it is asked for, so that many designs can live under the same days. */
export class KeptSky implements SkySource {
  readonly stepsPerHour: number
  private readonly sky: SkySource
  private readonly lights: Float64Array[] = []
  private readonly airs: Float64Array[] = []
  private next = 0

  constructor(sky: SkySource) {
    this.sky = sky
    this.stepsPerHour = sky.stepsPerHour
  }

  /** Back to the first day of the same path. */
  start(): void {
    this.next = 0
  }

  day(day: number, light: Float64Array, air: Float64Array): void {
    const at = this.next++
    if (at === this.lights.length) {
      this.sky.day(day, light, air)
      this.lights.push(light.slice())
      this.airs.push(air.slice())
      return
    }
    light.set(this.lights[at])
    air.set(this.airs[at])
  }
}
