/** The climate that a weather year shows: monthly means, the floor of clearness, persistence and temperature statistics. */
import { brent } from '../numeric/root.ts'
import { dailyFromMonthly } from './annual-cycle.ts'
import { DAYS, MONTH_LENGTHS, MONTH_OF_DAY, monthlyMeans } from './calendar.ts'
import { bendtLaw } from './clearness-bendt.ts'
import { clearnessFromIrradiation } from './climate-months.ts'
import { type DailyWeather, dailyWeather } from './daily-weather.ts'
import { persistenceOf } from './persistence.ts'
import type { Climate, WeatherYear } from './place.ts'

/** Days with less light above the air (J/m²) than this have no clearness worth the name. */
const ENOUGH_LIGHT_J_m2 = 1e6

/**
 * The Bendt floor under which the year's darkest day is where the darkest of so many days is expected: with the density
 * f(m) of each month's law at its floor, the least of its days lies 1/Σf above the floor, to first order.
 */
function fitFloor(daily: DailyWeather, clearness: readonly number[]): number {
  const daysInMonth = MONTH_LENGTHS.map(() => 0)
  let least = Number.POSITIVE_INFINITY
  for (let day = 0; day < DAYS; day++) {
    if (daily.extraterrestrial_J_m2[day] < ENOUGH_LIGHT_J_m2) continue
    daysInMonth[MONTH_OF_DAY[day]]++
    least = Math.min(least, daily.irradiation_J_m2[day] / daily.extraterrestrial_J_m2[day])
  }
  const expectedLeast = (floor: number): number => {
    let density = 0
    for (const [month, mean] of clearness.entries())
      if (mean > floor) density += daysInMonth[month] * bendtLaw(mean, floor).density(floor)
    return floor + 1 / density
  }
  const highest = Math.min(least, 0.95 * Math.min(...clearness))
  if (expectedLeast(0) >= least) return 0
  return expectedLeast(highest) <= least ? highest : brent((f) => expectedLeast(f) - least, 0, highest, 1e-6)
}

/**
 * The six months with the least light. Persistence is fitted there, because there it decides, and because dull spells
 * last longer in winter than in summer: 0.41 against 0.29 and 0.38 against 0.22 in two typical years.
 */
function darkHalf(irradiation_J_m2: readonly number[]): ReadonlySet<number> {
  const byLight = irradiation_J_m2
    .map((_, month) => month)
    .sort((a, b) => irradiation_J_m2[a] - irradiation_J_m2[b])
  return new Set(byLight.slice(0, 6))
}

/**
 * All that the generator needs, estimated from one year. Persistence and floor of a single year are rough. RangeError for
 * a year whose months are brighter than a clear sky.
 */
export function climateFromYear(year: WeatherYear): Climate {
  const daily = dailyWeather(year)
  const clearness = clearnessFromIrradiation(year.latitude_deg, monthlyMeans(daily.irradiation_J_m2))
  const lit = (day: number): boolean => daily.extraterrestrial_J_m2[day] >= ENOUGH_LIGHT_J_m2
  const dailyClearness = daily.irradiation_J_m2.map((value, day) =>
    lit(day) ? value / daily.extraterrestrial_J_m2[day] : 0,
  )
  const litShare = monthlyMeans(Float64Array.from(dailyClearness, (_, day) => (lit(day) ? 1 : 0)))
  const meanClearness = monthlyMeans(dailyClearness).map((mean, month) => mean / (litShare[month] || 1))
  const meanTemperature_C = monthlyMeans(daily.meanTemperature_C)
  // Clearness is drawn in monthly steps, temperature along a smooth year: each deviates from its own.
  const clearnessDeviation = dailyClearness.map((value, day) => value - meanClearness[MONTH_OF_DAY[day]])
  const cycle_C = dailyFromMonthly(meanTemperature_C)
  const temperature = persistenceOf(
    daily.meanTemperature_C.map((value, day) => value - cycle_C[day]),
    () => true,
  )
  const dark = darkHalf(monthlyMeans(daily.irradiation_J_m2))
  return {
    clearness,
    temperature_C: meanTemperature_C,
    dailyRange_K: monthlyMeans(daily.range_K),
    floor: fitFloor(daily, clearness),
    persistence: persistenceOf(clearnessDeviation, (day) => lit(day) && dark.has(MONTH_OF_DAY[day])).lagOne,
    dailyDeviation_K: temperature.deviation,
    temperaturePersistence: temperature.lagOne,
  }
}
