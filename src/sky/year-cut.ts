/**
 * Where the year is cut, so that its darkest weeks lie in the middle and a "winter" is never halved: on 1 July in the
 * north, on 1 January in the south, and near the equator, where the sun's height no longer decides, at the brightest
 * time that the place itself has. Days count from 0 = 1 January.
 */
import { DAYS, MONTH_OF_DAY } from './calendar.ts'
import { dailyExtraterrestrial_J_m2 } from './extraterrestrial.ts'

/** Nearer to the equator than this (degrees) rain rules the light: clouds swing more than the sun. */
const EQUATORIAL_deg = 12
const FIRST_OF_JULY = 181
/** Long enough to even out the steps between months. */
const SMOOTHING_DAYS = 61
const FORTNIGHT = 14

/** Expected irradiation (J/m²) on the horizontal, day by day, from twelve monthly clearness indices. */
export const expectedLight_J_m2 = (latitude_deg: number, clearness: readonly number[]): Float64Array =>
  Float64Array.from(
    MONTH_OF_DAY,
    (month, day) => clearness[month] * dailyExtraterrestrial_J_m2(latitude_deg, day + 1),
  )

/** Sums over `width` days beginning with each day, the year taken as a ring. */
const runningSums = (daily: ArrayLike<number>, width: number): number[] =>
  Array.from({ length: DAYS }, (_, start) => {
    let sum = 0
    for (let i = 0; i < width; i++) sum += daily[(start + i) % DAYS]
    return sum
  })

/** First day 0..364 of a year cut at this place. */
export function yearCut(latitude_deg: number, clearness: readonly number[]): number {
  if (latitude_deg > EQUATORIAL_deg) return FIRST_OF_JULY
  if (latitude_deg < -EQUATORIAL_deg) return 0
  const sums = runningSums(expectedLight_J_m2(latitude_deg, clearness), SMOOTHING_DAYS)
  const brightest = sums.indexOf(Math.max(...sums))
  return (brightest + (SMOOTHING_DAYS - 1) / 2) % DAYS
}

/** First day 0..364 of the fourteen days with the least expected light on the horizontal; may run over the new year. */
export function darkestFortnight(latitude_deg: number, clearness: readonly number[]): number {
  const sums = runningSums(expectedLight_J_m2(latitude_deg, clearness), FORTNIGHT)
  const least = Math.min(...sums)
  // A polar night has many darkest fortnights: take the middle one of the run that holds the first found.
  const dark = (day: number): boolean => sums[((day % DAYS) + DAYS) % DAYS] <= least * (1 + 1e-9) + 1
  let first = sums.indexOf(least)
  while (dark(first - 1) && first > sums.indexOf(least) - DAYS) first--
  let last = first
  while (dark(last + 1) && last < first + DAYS) last++
  return (Math.floor((first + last) / 2) + DAYS) % DAYS
}
