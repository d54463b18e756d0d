/**
 * A whole life's weather of each run, one row a stride: the air of its coldest hour, which decides whether the device holds
 * up, and two temperatures that stand for all its hours, which decide what goes: a standard deviation below their mean
 * and one above, because cells lose charge and age faster than in proportion to warmth (Gauss-Hermite, two points).
 */
import { stream } from '../numeric/random.ts'
import { DAYS } from '../sky/calendar.ts'
import { type DayShapes, dayShapes } from '../sky/day-shape.ts'
import { type Generator, prepareGenerator, WeatherPath } from '../sky/generator.ts'
import type { Place } from '../sky/place.ts'
import { WEATHER_STREAM } from './ensemble.ts'
import { dayOnPlane, onGround, planeOf } from './plane.ts'
import type { Strides } from './what-if-strides.ts'

/** So much is played at first, then all of it: lives are either short or long. */
const FIRST_DAYS = DAYS
/** Of a `LifeSky`. */
const BYTES_PER_STRIDE = 17
/** Nodes over clearness 0..0.9 of the day's light. */
const CLEARNESS_CELLS = 9
const CLEAREST = 0.9

export interface LifeSky {
  /** Whole strides that have been played; the arrays are that long. */
  readonly strides: number
  readonly coldest_C: Float32Array
  /** On which day of the stride that is, counted from 0. */
  readonly coldestDay: Uint8Array
  readonly cool_C: Float32Array
  readonly warm_C: Float32Array
  /** Mean over all hours, on the plane as the place has it. */
  readonly light_W_m2: Float32Array
}

export class LifeSkies {
  private readonly seed: number
  private readonly cutDay: number
  private readonly strides: Strides
  private readonly generator: Generator
  /** Rows of CLEARNESS_CELLS + 1: mean light of each day of the year. */
  private readonly dayLight_W_m2: Float64Array
  /** Coldest hour of each day of the year, in daily ranges about the day's mean. */
  private readonly coldest: Float64Array
  /** Mean over the hours of each day, likewise, and of the square. */
  private readonly warmth: Float64Array
  private readonly warmthSquared: Float64Array
  private readonly known: LifeSky[] = []
  private known_strides = 0

  constructor(place: Place<number>, seed: number, cutDay: number, strides: Strides) {
    const shapes = dayShapes(place, 1)
    this.seed = seed
    this.cutDay = cutDay
    this.strides = strides
    this.generator = prepareGenerator(place.climate)
    this.dayLight_W_m2 = meanLight_W_m2(place, shapes)
    const byDay = (of: (hours: Float64Array) => number) =>
      Float64Array.from({ length: DAYS }, (_, day) => of(shapes.warmth.subarray(24 * day, 24 * day + 24)))
    this.coldest = byDay((hours) => Math.min(...hours))
    this.warmth = byDay((hours) => hours.reduce((sum, hour) => sum + hour, 0) / 24)
    this.warmthSquared = byDay((hours) => hours.reduce((sum, hour) => sum + hour * hour, 0) / 24)
  }

  get bytes(): number {
    return this.known_strides * BYTES_PER_STRIDE
  }

  /** At least the first `strides` of a run, as far as there are so many; plays further where it must. */
  of(run: number, strides: number): LifeSky {
    const before = this.known[run]
    if (before === undefined || before.strides < strides) {
      const longer = this.play(run, before === undefined ? FIRST_DAYS : Infinity)
      this.known[run] = longer
      this.known_strides += longer.strides - (before?.strides ?? 0)
      return this.of(run, Math.min(strides, this.strides.days.length))
    }
    return before
  }

  private play(run: number, days: number): LifeSky {
    const path = new WeatherPath(this.generator)
    path.start(stream(this.seed, run, WEATHER_STREAM))
    const coldest_C: number[] = []
    const coldestDay: number[] = []
    const cool_C: number[] = []
    const warm_C: number[] = []
    const light_W_m2: number[] = []
    let day = 0
    for (const length of this.strides.days) {
      if (day >= days) break
      let coldest = Infinity
      let coldestAt = 0
      let air = 0
      let airSquared = 0
      let light = 0
      for (let d = 0; d < length; d++, day++) {
        const ofYear = (this.cutDay + day) % DAYS
        path.nextDay(ofYear)
        const { meanTemperature_C: mean, range_K: range, clearness } = path
        air += mean + range * this.warmth[ofYear]
        airSquared +=
          mean * (mean + 2 * range * this.warmth[ofYear]) + range * range * this.warmthSquared[ofYear]
        light += this.lightOf(ofYear, clearness)
        const low = mean + range * this.coldest[ofYear]
        if (low < coldest) {
          coldest = low
          coldestAt = d
        }
      }
      coldest_C.push(coldest)
      coldestDay.push(coldestAt)
      const mean = air / length
      const deviation = Math.sqrt(Math.max(airSquared / length - mean * mean, 0))
      cool_C.push(mean - deviation)
      warm_C.push(mean + deviation)
      light_W_m2.push(light / length)
    }
    return {
      strides: warm_C.length,
      coldest_C: Float32Array.from(coldest_C),
      coldestDay: Uint8Array.from(coldestDay),
      cool_C: Float32Array.from(cool_C),
      warm_C: Float32Array.from(warm_C),
      light_W_m2: Float32Array.from(light_W_m2),
    }
  }

  private lightOf(day: number, clearness: number): number {
    const place = Math.min(clearness / CLEAREST, 1 - 1e-9) * CLEARNESS_CELLS
    const cell = Math.floor(place)
    const i = day * (CLEARNESS_CELLS + 1) + cell
    const { dayLight_W_m2 } = this
    return dayLight_W_m2[i] + (place - cell) * (dayLight_W_m2[i + 1] - dayLight_W_m2[i])
  }
}

function meanLight_W_m2(place: Place<number>, shapes: DayShapes): Float64Array {
  const plane = onGround(planeOf(place, shapes), place)
  const hours = new Float64Array(24)
  const table = new Float64Array(DAYS * (CLEARNESS_CELLS + 1))
  for (let day = 0; day < DAYS; day++)
    for (let cell = 0; cell <= CLEARNESS_CELLS; cell++) {
      dayOnPlane(plane, day, (CLEAREST * cell) / CLEARNESS_CELLS, hours)
      table[day * (CLEARNESS_CELLS + 1) + cell] = hours.reduce((sum, light) => sum + light, 0) / 24
    }
  return table
}
