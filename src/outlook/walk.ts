/** How a run moves on: a day at a time through its hours, or in whatever strides a what-if can afford. */
import type { Stream } from '../numeric/random.ts'
import type { Plan } from './plan.ts'
import type { SkySource } from './sky-source.ts'
import type { State } from './state.ts'
import { advance } from './step.ts'

export interface Walk {
  readonly plan: Plan
  start(stream: Stream): void
  /**
   * Moves `state` on from `day` of the run, which is day `ofYear` (0..364) of the calendar; returns by how many days,
   * never past the end of a winter year. What they brought is in the fields below.
   */
  stride(day: number, ofYear: number, state: State): number
  /** Light on the panel's plane, J/m² a day, and air, both means over the days of the last stride. */
  readonly light_J_m2: number
  readonly air_C: number
  /** In all of the last stride. */
  readonly downHours: number
  /** Where the device went down in the last stride, days from its beginning. */
  readonly fell_days: number
}

/** Day by day, in the steps of the plan. */
export class DailyWalk implements Walk {
  light_J_m2 = 0
  air_C = 0
  downHours = 0
  readonly fell_days = 0
  readonly plan: Plan
  private readonly sky: SkySource
  private readonly light: Float64Array
  private readonly air: Float64Array

  constructor(plan: Plan, sky: SkySource) {
    this.plan = plan
    this.sky = sky
    this.light = new Float64Array(24 * sky.stepsPerHour)
    this.air = new Float64Array(24 * sky.stepsPerHour)
  }

  start(stream: Stream): void {
    this.sky.start(stream)
  }

  stride(_: number, ofYear: number, state: State): number {
    const { plan, sky, light, air } = this
    const downBefore = state.downSteps
    sky.day(ofYear, light, air)
    advance(plan, state, light, air, ofYear * light.length)
    let lightSum = 0
    let airSum = 0
    for (let i = 0; i < light.length; i++) {
      lightSum += light[i]
      airSum += air[i]
    }
    this.light_J_m2 = lightSum * plan.step_s
    this.air_C = airSum / air.length
    this.downHours = (state.downSteps - downBefore) / sky.stepsPerHour
    return 1
  }
}
