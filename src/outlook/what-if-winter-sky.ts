/**
 * The first winter of each run's weather as the step function takes it, in steps of some hours: means of the hours that
 * the full outlook plays, so that the same days come to both.
 */
import { stream } from '../numeric/random.ts'
import { DAYS } from '../sky/calendar.ts'
import { type DayShapes, dayShapes } from '../sky/day-shape.ts'
import { type Generator, prepareGenerator } from '../sky/generator.ts'
import type { Place } from '../sky/place.ts'
import { WEATHER_STREAM } from './ensemble.ts'
import { onGround, planeOf } from './plane.ts'
import { drawnSky, type SkySource } from './sky-source.ts'

/** So many parts has a year when it is played in haste. */
export const WEEKS = 52

export interface WinterSky {
  /** From the cut on: W/m² on the panel's plane, and °C. */
  readonly light: Float32Array
  readonly air: Float32Array
  /** Means over fifty-second parts of the year. */
  readonly weekLight: Float64Array
  readonly weekAir: Float64Array
}

export class WinterSkies {
  private readonly place: Place<unknown>
  private readonly seed: number
  private readonly cutDay: number
  private readonly stepHours: number
  private readonly shapes: DayShapes
  private readonly generator: Generator
  private readonly known: WinterSky[] = []
  private readonly light = new Float64Array(24)
  private readonly air = new Float64Array(24)

  constructor(place: Place<unknown>, seed: number, cutDay: number, stepHours: number) {
    this.place = place
    this.seed = seed
    this.cutDay = cutDay
    this.stepHours = stepHours
    this.shapes = dayShapes(place, 1)
    this.generator = prepareGenerator(place.climate)
  }

  /** The winter of a run; `tilt_deg`, `azimuth_deg` and `albedo` are those that the run draws of this place. */
  of(run: number, { tilt_deg, azimuth_deg, albedo }: Place<number>): WinterSky {
    this.known[run] ??= this.play(run, { ...this.place, tilt_deg, azimuth_deg, albedo } as Place<number>)
    return this.known[run]
  }

  private play(run: number, place: Place<number>): WinterSky {
    const { shapes, generator, stepHours, light, air } = this
    const perDay = 24 / stepHours
    const hours = drawnSky(generator, shapes, onGround(planeOf(place, shapes), place))
    const winter = {
      light: new Float32Array(DAYS * perDay),
      air: new Float32Array(DAYS * perDay),
    }
    hours.start(stream(this.seed, run, WEATHER_STREAM))
    for (let day = 0; day < DAYS; day++) {
      hours.day((this.cutDay + day) % DAYS, light, air)
      for (let step = 0; step < perDay; step++) {
        let lightSum = 0
        let airSum = 0
        for (let hour = step * stepHours; hour < (step + 1) * stepHours; hour++) {
          lightSum += light[hour]
          airSum += air[hour]
        }
        winter.light[day * perDay + step] = lightSum / stepHours
        winter.air[day * perDay + step] = airSum / stepHours
      }
    }
    return { ...winter, weekLight: weekMeans(winter.light), weekAir: weekMeans(winter.air) }
  }
}

function weekMeans(steps: Float32Array): Float64Array {
  return Float64Array.from({ length: WEEKS }, (_, week) => {
    const from = Math.round((week * steps.length) / WEEKS)
    const to = Math.round(((week + 1) * steps.length) / WEEKS)
    let sum = 0
    for (let i = from; i < to; i++) sum += steps[i]
    return sum / (to - from)
  })
}

/** A winter again, as often as it is asked for. */
export function recordedWinter({ light, air }: WinterSky, cutDay: number): SkySource {
  const perDay = light.length / DAYS
  return {
    stepsPerHour: perDay / 24,
    start() {},
    day(day, intoLight, intoAir) {
      const first = ((day - cutDay + DAYS) % DAYS) * perDay
      for (let step = 0; step < perDay; step++) {
        intoLight[step] = light[first + step]
        intoAir[step] = air[first + step]
      }
    },
  }
}
