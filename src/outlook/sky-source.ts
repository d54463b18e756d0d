/** Light and air for the step function, a day at a time: drawn from a climate, or replayed from a weather year. */
import type { Stream } from '../numeric/random.ts'
import { DAYS } from '../sky/calendar.ts'
import type { DayShapes } from '../sky/day-shape.ts'
import { type Generator, WeatherPath } from '../sky/generator.ts'
import type { WeatherYear } from '../sky/place.ts'
import { dayOnPlane, lightOnPlane_W_m2, type Plane } from './plane.ts'

export interface SkySource {
  readonly stepsPerHour: number
  /** Begins a new path; a replayed year takes no notice of the stream. */
  start(stream: Stream): void
  /**
   * Fills `light` (irradiance on the panel's plane, W/m²) and `air` (°C) for day 0..364 of the year, 24 · stepsPerHour
   * values each. Days are asked for in order.
   */
  day(day: number, light: Float64Array, air: Float64Array): void
}

/** Weather drawn day by day. */
export const drawnSky = (generator: Generator, shapes: DayShapes, plane: Plane): SkySource =>
  new DrawnSky(generator, shapes, plane)

class DrawnSky implements SkySource {
  readonly stepsPerHour: number
  private readonly path: WeatherPath
  private readonly warmth: Float64Array
  private readonly plane: Plane

  constructor(generator: Generator, shapes: DayShapes, plane: Plane) {
    this.stepsPerHour = plane.stepsPerHour
    this.path = new WeatherPath(generator)
    this.warmth = shapes.warmth
    this.plane = plane
  }

  start(stream: Stream): void {
    this.path.start(stream)
  }

  day(day: number, light: Float64Array, air: Float64Array): void {
    const { path, warmth } = this
    path.nextDay(day)
    dayOnPlane(this.plane, day, path.clearness, light)
    const { meanTemperature_C, range_K } = path
    for (let step = 0, i = day * air.length; step < air.length; step++, i++)
      air[step] = meanTemperature_C + range_K * warmth[i]
  }
}

/** A year of hours as it was, the same every year; within an hour the light is even but for the sun's place. */
export function replayedSky(year: WeatherYear, plane: Plane): SkySource {
  const { stepsPerHour } = plane
  const perDay = 24 * stepsPerHour
  const whole = new Float64Array(DAYS * perDay)
  for (let i = 0; i < whole.length; i++) {
    const hour = Math.floor(i / stepsPerHour)
    const day = Math.floor(hour / 24)
    const global = year.global_W_m2[hour]
    const cosine = plane.cosZenith[i]
    // Light while the sun's centre is down is twilight, all of it diffuse.
    const diffuse = cosine > 0 ? Math.min(year.diffuse_W_m2[hour], global) : global
    whole[i] = lightOnPlane_W_m2(plane, global, diffuse, cosine, plane.facing[i], plane.normal_W_m2[day])
  }
  return {
    stepsPerHour,
    start() {},
    day(day, light, air) {
      light.set(whole.subarray(day * perDay, (day + 1) * perDay))
      for (let step = 0; step < perDay; step++)
        air[step] = year.temperature_C[day * 24 + Math.floor(step / stepsPerHour)]
    },
  }
}
