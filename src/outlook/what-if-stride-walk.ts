/**
 * A life in strides of days: each is played as its coldest hour, in which the device either holds up or does not, and
 * the rest of it in two steps, a cool and a warm one. For cells that nothing charges, whose charge only falls.
 */
import type { Pack } from '../supply/supply.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import { inSteps } from './compile.ts'
import type { Plan } from './plan.ts'
import type { State } from './state.ts'
import { advance } from './step.ts'
import type { Walk } from './walk.ts'
import type { LifeSkies } from './what-if-life-sky.ts'
import type { Strides } from './what-if-strides.ts'

const HOUR_s = 3600
const DAY_s = 86_400

export interface StrideSky {
  readonly skies: LifeSkies
  readonly run: number
  readonly strides: Strides
}

export class StrideWalk implements Walk {
  light_J_m2 = 0
  air_C = 0
  downHours = 0
  fell_days = 0
  readonly plan: Plan
  private readonly design: { readonly pack: Pack<number>; readonly rows: readonly ExpectedWakes[] }
  private readonly sky: StrideSky
  /** By days of the stride. */
  private readonly halves: Plan[] = []
  private readonly light = new Float64Array(1)
  private readonly air = new Float64Array(1)
  private next = 0

  /** `plan` must be one of hourly steps. */
  constructor(plan: Plan, pack: Pack<number>, rows: readonly ExpectedWakes[], sky: StrideSky) {
    this.design = { pack, rows }
    this.plan = inSteps(plan, pack, rows, HOUR_s)
    this.sky = sky
  }

  start(): void {
    this.next = 0
  }

  stride(_day: number, _ofYear: number, state: State): number {
    const { skies, run, strides } = this.sky
    const i = this.next++
    const days = strides.days[i]
    const weather = skies.of(run, i + 1)
    const deathsBefore = state.deaths

    const coldDown = this.step(this.plan, state, weather.coldest_C[i], 0)
    // What has run empty did so before the cold came.
    this.fell_days = state.deaths > deathsBefore && state.fall.state > 0 ? weather.coldestDay[i] : 0
    const half = this.halfOf(days)
    const coolDown = this.step(half, state, weather.cool_C[i], 0)
    const warmDown = this.step(half, state, weather.warm_C[i], 2 * weather.light_W_m2[i])

    this.light_J_m2 = weather.light_W_m2[i] * DAY_s
    this.air_C = (weather.cool_C[i] + weather.warm_C[i]) / 2
    this.downHours = coldDown + coolDown + warmDown
    return days
  }

  /** One step of `plan`; returns the hours for which it was down. */
  private step(plan: Plan, state: State, air_C: number, light_W_m2: number): number {
    const before = state.downSteps
    this.air[0] = air_C
    this.light[0] = light_W_m2
    advance(plan, state, this.light, this.air, 0)
    return state.downSteps > before ? plan.step_s / HOUR_s : 0
  }

  /** Half of what a stride of so many days has beside its coldest hour. */
  private halfOf(days: number): Plan {
    const { pack, rows } = this.design
    this.halves[days] ??= inSteps(this.plan, pack, rows, (days * DAY_s - HOUR_s) / 2)
    return this.halves[days]
  }
}
