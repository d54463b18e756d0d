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

/** A year that only leads up to a winter is played in so many parts, a cool and a warm one of each fortnight. */
export const PARTS = 52

export interface WinterSky {
  /** From the cut on: W/m² on the panel's plane, and °C. */
  readonly light: Float32Array
  readonly air: Float32Array
  /** The year in parts: cool and warm stand a standard deviation from the mean, and all the light is in the warm ones. */
  readonly partLight: Float64Array
  readonly partAir: Float64Array
}

export class WinterSkies {
  private readonly place: Place<unknown>
  private readonly seed: number
  private readonly cutDay: number
  private readonly stepHours: number
  private readonly shapes: DayShapes
  private readonly generator: Generator
  private readonly known: WinterSky[] = []
  private known_bytes = 0
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

  get bytes(): number {
    return this.known_bytes
  }

  /** The winter of a run; `tilt_deg`, `azimuth_deg` and `albedo` are those that the run draws of this place. */
  of(run: number, { tilt_deg, azimuth_deg, albedo }: Place<number>): WinterSky {
    const before = this.known[run]
    if (before !== undefined) return before
    const winter = this.play(run, { ...this.place, tilt_deg, azimuth_deg, albedo } as Place<number>)
    this.known[run] = winter
    this.known_bytes += winter.light.byteLength + winter.air.byteLength + 2 * winter.partAir.byteLength
    return winter
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
    return { ...winter, ...inParts(winter) }
  }
}

function inParts({ light, air }: Pick<WinterSky, 'light' | 'air'>) {
  const partLight = new Float64Array(PARTS)
  const partAir = new Float64Array(PARTS)
  for (let cool = 0; cool < PARTS; cool += 2) {
    const from = Math.round((cool * air.length) / PARTS)
    const to = Math.round(((cool + 2) * air.length) / PARTS)
    let lightSum = 0
    let sum = 0
    let squares = 0
    for (let i = from; i < to; i++) {
      lightSum += light[i]
      sum += air[i]
      squares += air[i] * air[i]
    }
    const mean = sum / (to - from)
    const deviation = Math.sqrt(Math.max(squares / (to - from) - mean * mean, 0))
    partAir[cool] = mean - deviation
    partAir[cool + 1] = mean + deviation
    partLight[cool + 1] = (2 * lightSum) / (to - from)
  }
  return { partLight, partAir }
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
