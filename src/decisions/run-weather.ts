/** The weather of each run, the same for every design that meets it: made once where there is room to keep it. */
import { stream } from '../numeric/random.ts'
import { drawn, probabilitiesOf } from '../outlook/draw.ts'
import { WEATHER_STREAM } from '../outlook/ensemble.ts'
import { onGround, planeOf } from '../outlook/plane.ts'
import { drawnSky } from '../outlook/sky-source.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { prepareGenerator } from '../sky/generator.ts'
import { remember } from './remember.ts'

export interface RunWeather {
  /** W/m² on the panel's plane and °C, a value a step, from the day on which winter years begin. */
  readonly light: Float64Array
  readonly air: Float64Array
}

export interface WeatherSettings {
  readonly outpost: Outpost
  readonly years: number
  readonly seed: number
  readonly stepsPerHour: number
  readonly cutDay: number
}

/** Most that is kept: some hundred and thirty runs of five years in hours. */
const ROOM_bytes = 96e6

export function weatherOf({ outpost, years, seed, stepsPerHour, cutDay }: WeatherSettings) {
  const shapes = dayShapes(outpost.place, stepsPerHour)
  const generator = prepareGenerator(outpost.place.climate)
  const days = Math.round(years * DAYS)
  const perDay = 24 * stepsPerHour
  // Most designs leave the plane as it is from run to run.
  const plane = remember(planeOf, ({ tilt_deg, azimuth_deg }) => `${tilt_deg} ${azimuth_deg}`)

  const make = (run: number): RunWeather => {
    const light = new Float64Array(days * perDay)
    const air = new Float64Array(days * perDay)
    const { place } = drawn(outpost, probabilitiesOf(seed, run))
    const sky = drawnSky(generator, shapes, onGround(plane(place, shapes), place))
    sky.start(stream(seed, run, WEATHER_STREAM))
    for (let day = 0; day < days; day++) {
      const steps = [day * perDay, (day + 1) * perDay] as const
      sky.day((cutDay + day) % DAYS, light.subarray(...steps), air.subarray(...steps))
    }
    return { light, air }
  }
  const run_bytes = 2 * days * perDay * Float64Array.BYTES_PER_ELEMENT
  return remember(make, (run) => String(run), Math.max(1, Math.floor(ROOM_bytes / run_bytes)))
}
