/** How cold a place gets, for what must still work then. */
import type { Climate } from './place.ts'

/** So many standard deviations of a day's mean below the coldest month's: about one night of that month in forty. */
const COLD_DEVIATIONS = 2

/** Air in °C in the night of a cold day in the coldest month. */
export function coldestAir_C(climate: Climate): number {
  const nights = climate.temperature_C.map((mean_C, month) => mean_C - climate.dailyRange_K[month] / 2)
  return Math.min(...nights) - COLD_DEVIATIONS * climate.dailyDeviation_K
}
