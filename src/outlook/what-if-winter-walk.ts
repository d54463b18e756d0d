/** A winter of `WinterSkies`, day by day; the day's light and air are told as they were, not as the steps had them. */
import { DAYS } from '../sky/calendar.ts'
import { type Charging, inOneShape, type Plan } from './plan.ts'
import type { State } from './state.ts'
import { advance } from './step.ts'
import type { Walk } from './walk.ts'
import type { WinterSky } from './what-if-winter-sky.ts'

export class WinterWalk implements Walk {
  light_J_m2 = 0
  air_C = 0
  downHours = 0
  readonly fell_days = 0
  readonly plan: Plan
  private readonly winter: WinterSky
  private readonly cutDay: number
  private readonly light: Float64Array
  private readonly air: Float64Array

  constructor(plan: Plan, winter: WinterSky, cutDay: number) {
    this.plan = plan
    this.winter = winter
    this.cutDay = cutDay
    this.light = new Float64Array(winter.light.length / DAYS)
    this.air = new Float64Array(winter.air.length / DAYS)
  }

  start(): void {}

  stride(_: number, ofYear: number, state: State): number {
    const { plan, winter, light, air } = this
    const day = (ofYear - this.cutDay + DAYS) % DAYS
    const downBefore = state.downSteps
    for (let step = 0, i = day * light.length; step < light.length; step++, i++) {
      light[step] = winter.light[i]
      air[step] = winter.air[i]
    }
    advance(plan, state, light, air, ofYear * light.length)
    this.light_J_m2 = winter.dayLight_J_m2[day]
    this.air_C = winter.dayAir_C[day]
    this.downHours = ((state.downSteps - downBefore) * 24) / light.length
    return 1
  }
}

/** The same plan without a charge window: what the sky of such a winter gives lies inside it already. */
export const atAnyWarmth = (plan: Plan): Plan =>
  inOneShape({ ...plan, charging: plan.charging && openWindow(plan.charging) })

/** By one literal, as plans are. */
const openWindow = (charging: Charging): Charging => ({
  panel: charging.panel,
  drop_V: charging.drop_V,
  converter: charging.converter,
  panelRise_K_m2_W: charging.panelRise_K_m2_W,
  clean: charging.clean,
  low_C: Number.NEGATIVE_INFINITY,
  high_C: Number.POSITIVE_INFINITY,
  full_V: charging.full_V,
  fullState: charging.fullState,
  coulombicEfficiency: charging.coulombicEfficiency,
  limit_A: charging.limit_A,
  night_A: charging.night_A,
})
