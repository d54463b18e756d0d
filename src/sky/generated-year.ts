/** A drawn day spread over its hours, and whole drawn years in the form that weather files come in. */
import type { Stream } from '../numeric/random.ts'
import { DAYS, HOURS } from './calendar.ts'
import type { DayShapes } from './day-shape.ts'
import { erbsDaily } from './diffuse-split.ts'
import { dailyExtraterrestrial_J_m2, extraterrestrialNormal_W_m2 } from './extraterrestrial.ts'
import { type Generator, WeatherPath } from './generator.ts'
import type { WeatherYear } from './place.ts'
import type { WeatherSite } from './weather-table.ts'

interface DrawnDay {
  readonly clearness: number
  readonly meanTemperature_C: number
  readonly range_K: number
}

/**
 * Spreads `drawn` over the intervals of day 0..364 of `year`, whose arrays must have as many intervals as `shapes`. The
 * day's diffuse light is Erbs', its beam light the rest; no interval is brighter than the light above the air.
 */
export function writeDay(year: WeatherYear, shapes: DayShapes, day: number, drawn: DrawnDay): void {
  const steps = 24 * shapes.stepsPerHour
  const seconds = 3600 / shapes.stepsPerHour
  const normal_W_m2 = extraterrestrialNormal_W_m2(day + 1)
  const light_J_m2 = drawn.clearness * dailyExtraterrestrial_J_m2(year.latitude_deg, day + 1)
  const diffuse_J_m2 = light_J_m2 * erbsDaily(drawn.clearness, shapes.sunsetHourAngle_deg[day])
  for (let i = day * steps; i < (day + 1) * steps; i++) {
    const total = (light_J_m2 * shapes.globalShare[i]) / seconds
    const scattered = (diffuse_J_m2 * shapes.diffuseShare[i]) / seconds
    const cosine = shapes.sky.cosZenith[i]
    const beam = cosine > 0 ? Math.min(Math.max(total - scattered, 0) / cosine, normal_W_m2) : 0
    year.global_W_m2[i] = total
    year.beamNormal_W_m2[i] = beam
    year.diffuse_W_m2[i] = Math.max(total - beam * cosine, 0)
    year.temperature_C[i] = drawn.meanTemperature_C + drawn.range_K * shapes.warmth[i]
  }
}

/** A whole drawn year of hours; `shapes` are the site's, with one interval an hour. */
export function generateYear(
  generator: Generator,
  site: WeatherSite,
  shapes: DayShapes,
  stream: Stream,
): WeatherYear {
  const path = new WeatherPath(generator)
  const year = {
    ...site,
    global_W_m2: new Float64Array(HOURS),
    beamNormal_W_m2: new Float64Array(HOURS),
    diffuse_W_m2: new Float64Array(HOURS),
    temperature_C: new Float64Array(HOURS),
  }
  path.start(stream)
  for (let day = 0; day < DAYS; day++) {
    path.nextDay(day)
    writeDay(year, shapes, day, path)
  }
  return year
}
