/** The climate that a weather year shows: monthly means, the floor of clearness, persistence and temperature statistics. */
import { brent } from '../numeric/root.ts'
import { dailyFromMonthly } from './annual-cycle.ts'
import { DAYS, MONTH_LENGTHS, MONTH_OF_DAY, monthlyMeans } from './calendar.ts'
import { bendtLaw } from './clearness-bendt.ts'
import { clearnessFromIrradiation } from './climate-months.ts'
import { type DailyWeather, dailyWeather } from './daily-weather.ts'
import type { Climate, WeatherYear } from './place.ts'

/** Days with less light above the air (J/m²) than this have no clearness worth the name. */
const ENOUGH_LIGHT_J_m2 = 1e6
const DAYS_PER_MONTH = 30
const LAG_ONE_BOUNDS = [-0.5, 0.9] as const

/** Lag-one and spread of a daily series about its mean, freed of the bias of short months. */
interface Persistence {
  readonly lagOne: number
  readonly deviation: number
}

/** Share of a series' variance that the mean of a 30-day month takes with it, where its lag-one is `r` (AR(1)). */
function shareOfMonthMean(r: number): number {
  const n = DAYS_PER_MONTH
  return ((1 + r) / (1 - r) - (2 * r * (1 - r ** n)) / (n * (1 - r) ** 2)) / n
}

/**
 * Only neighbours within a month are paired, as typical years are stitched from months of different years. Taking the
 * mean from the same 30 days lowers variance and lag-one covariance alike by the share v(r) that the mean holds, so that
 * the estimate found is (r − v)/(1 − v); r is solved from that.
 */
function persistenceOf(deviations: ArrayLike<number>, use: (day: number) => boolean): Persistence {
  let products = 0
  let pairs = 0
  let squares = 0
  let count = 0
  for (let day = 0; day < DAYS; day++) {
    if (!use(day)) continue
    squares += deviations[day] ** 2
    count++
    if (day === 0 || !use(day - 1) || MONTH_OF_DAY[day] !== MONTH_OF_DAY[day - 1]) continue
    products += deviations[day] * deviations[day - 1]
    pairs++
  }
  if (pairs === 0 || squares === 0) return { lagOne: 0, deviation: 0 }
  const found = products / pairs / (squares / count)
  const [low, high] = LAG_ONE_BOUNDS
  const excess = (r: number): number => (r - shareOfMonthMean(r)) / (1 - shareOfMonthMean(r)) - found
  const lagOne = excess(low) >= 0 ? low : excess(high) <= 0 ? high : brent(excess, low, high, 1e-6)
  return { lagOne, deviation: Math.sqrt(squares / count / (1 - shareOfMonthMean(lagOne))) }
}

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

/** All that the generator needs, estimated from one year. Persistence and floor of a single year are rough. */
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
  return {
    clearness,
    temperature_C: meanTemperature_C,
    dailyRange_K: monthlyMeans(daily.range_K),
    floor: fitFloor(daily, clearness),
    persistence: persistenceOf(clearnessDeviation, lit).lagOne,
    dailyDeviation_K: temperature.deviation,
    temperaturePersistence: temperature.lagOne,
  }
}
