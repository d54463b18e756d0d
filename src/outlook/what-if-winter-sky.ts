/**
 * The first winter of each run's weather as the step function takes it, in steps of some hours, from the hours that the
 * full outlook plays, so that the same days come to both. Two things are asked of each hour, because the mean of some
 * hours hides them: whether the cell may be charged (only that light is left, and the steps are then played without a
 * charge window), and how cold it gets, which decides whether the device holds up.
 */
import { stream } from '../numeric/random.ts'
import { DAYS } from '../sky/calendar.ts'
import { type DayShapes, dayShapes } from '../sky/day-shape.ts'
import { type Generator, prepareGenerator } from '../sky/generator.ts'
import type { Place } from '../sky/place.ts'
import type { ChargeWindow } from '../supply/supply.ts'
import { WEATHER_STREAM } from './ensemble.ts'
import { onGround, planeOf } from './plane.ts'
import { drawnSky } from './sky-source.ts'
import { Fortnights, type YearInParts } from './what-if-winter-parts.ts'

const HOUR_s = 3600

/** Temperatures of the cell, °C, between which it may be charged. */
export type Warmth = Pick<ChargeWindow, 'low_C' | 'high_C'>

/** Arrays begin at the cut. */
export interface WinterSky extends YearInParts {
  /** Of each day: all light on the panel's plane, J/m², and the mean air, °C. */
  readonly dayLight_J_m2: Float32Array
  readonly dayAir_C: Float32Array
  /** Of each step: mean of the light that charges, W/m², and the air in which it leaves the cell as cold as it gets, °C. */
  readonly light: Float32Array
  readonly air: Float32Array
}

export class WinterSkies {
  private readonly place: Place<unknown>
  private readonly seed: number
  private readonly cutDay: number
  private readonly stepHours: number
  private readonly warmth: Warmth
  private readonly shapes: DayShapes
  private readonly generator: Generator
  private readonly known: WinterSky[] = []
  private known_bytes = 0
  private readonly light = new Float64Array(24)
  private readonly air = new Float64Array(24)

  constructor(place: Place<unknown>, seed: number, cutDay: number, stepHours: number, warmth: Warmth) {
    this.place = place
    this.seed = seed
    this.cutDay = cutDay
    this.stepHours = stepHours
    this.warmth = warmth
    this.shapes = dayShapes(place, 1)
    this.generator = prepareGenerator(place.climate)
  }

  get bytes(): number {
    return this.known_bytes
  }

  /** The winter of a run; tilt, azimuth, albedo and the enclosure's rise are those that the run draws of this place. */
  of(run: number, { tilt_deg, azimuth_deg, albedo, enclosureRise_K }: Place<number>): WinterSky {
    const before = this.known[run]
    if (before !== undefined) return before
    const drawn = { ...this.place, tilt_deg, azimuth_deg, albedo, enclosureRise_K } as Place<number>
    const winter = this.play(run, drawn)
    this.known[run] = winter
    for (const values of Object.values(winter)) this.known_bytes += values.byteLength
    return winter
  }

  private play(run: number, place: Place<number>): WinterSky {
    const { shapes, generator, stepHours, light, air } = this
    const { low_C, high_C } = this.warmth
    const perDay = 24 / stepHours
    const rise_K_m2_W = place.enclosureRise_K / 1000
    const winter = {
      dayLight_J_m2: new Float32Array(DAYS),
      dayAir_C: new Float32Array(DAYS),
      light: new Float32Array(DAYS * perDay),
      air: new Float32Array(DAYS * perDay),
    }
    const fortnights = new Fortnights()
    const hours = drawnSky(generator, shapes, onGround(planeOf(place, shapes), place))
    hours.start(stream(this.seed, run, WEATHER_STREAM))
    for (let day = 0; day < DAYS; day++) {
      hours.day((this.cutDay + day) % DAYS, light, air)
      let lightSum = 0
      let airSum = 0
      for (let step = 0; step < perDay; step++) {
        let charges = 0
        let coldest_C = Infinity
        for (let hour = step * stepHours; hour < (step + 1) * stepHours; hour++) {
          const cell_C = air[hour] + light[hour] * rise_K_m2_W
          const charging = cell_C >= low_C && cell_C <= high_C ? light[hour] : 0
          fortnights.add(24 * day + hour, charging, cell_C)
          charges += charging
          if (cell_C < coldest_C) coldest_C = cell_C
          lightSum += light[hour]
          airSum += air[hour]
        }
        const mean_W_m2 = charges / stepHours
        winter.light[day * perDay + step] = mean_W_m2
        winter.air[day * perDay + step] = coldest_C - mean_W_m2 * rise_K_m2_W
      }
      winter.dayLight_J_m2[day] = lightSum * HOUR_s
      winter.dayAir_C[day] = airSum / 24
    }
    return { ...winter, ...fortnights.inParts(rise_K_m2_W) }
  }
}
