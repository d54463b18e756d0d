/** The days of a weather year: what the daily laws speak of. */
import { DAYS } from './calendar.ts'
import { dailyExtraterrestrial_J_m2 } from './extraterrestrial.ts'
import type { WeatherYear } from './place.ts'

export interface DailyWeather {
  /** On the horizontal, measured and above the air. */
  readonly irradiation_J_m2: Float64Array
  readonly extraterrestrial_J_m2: Float64Array
  readonly meanTemperature_C: Float64Array
  readonly range_K: Float64Array
}

export function dailyWeather(year: WeatherYear): DailyWeather {
  const daily = {
    irradiation_J_m2: new Float64Array(DAYS),
    extraterrestrial_J_m2: new Float64Array(DAYS),
    meanTemperature_C: new Float64Array(DAYS),
    range_K: new Float64Array(DAYS),
  }
  for (let day = 0; day < DAYS; day++) {
    const light = year.global_W_m2.subarray(24 * day, 24 * day + 24)
    const air = year.temperature_C.subarray(24 * day, 24 * day + 24)
    daily.irradiation_J_m2[day] = 3600 * light.reduce((sum, value) => sum + value, 0)
    daily.extraterrestrial_J_m2[day] = dailyExtraterrestrial_J_m2(year.latitude_deg, day + 1)
    daily.meanTemperature_C[day] = air.reduce((sum, value) => sum + value, 0) / 24
    daily.range_K[day] = Math.max(...air) - Math.min(...air)
  }
  return daily
}
