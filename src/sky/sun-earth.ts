/** The Earth seen from the sun: Reda & Andreas 2008 (NREL/TP-560-34302), section 3.2. */
import { RAD_PER_DEG, wrap360_deg } from './angle.ts'
import { DISTANCE_TERMS, LATITUDE_TERMS, LONGITUDE_TERMS, type Term } from './sun-earth-terms.ts'

export interface EarthPosition {
  readonly longitude_deg: number
  readonly latitude_deg: number
  readonly distance_au: number
}

/** Heliocentric position of the Earth, ecliptic of date, at Julian ephemeris millennia `t` from J2000.0. */
export function earthPosition(t: number): EarthPosition {
  return {
    longitude_deg: wrap360_deg(series(LONGITUDE_TERMS, t) / RAD_PER_DEG),
    latitude_deg: series(LATITUDE_TERMS, t) / RAD_PER_DEG,
    distance_au: series(DISTANCE_TERMS, t),
  }
}

/** Polynomial in t whose coefficients are sums of periodic terms: Eqs 9 to 11. */
function series(lists: readonly (readonly Term[])[], t: number): number {
  let value = 0
  for (let power = lists.length - 1; power >= 0; power--) {
    let coefficient = 0
    for (const [amplitude, phase, frequency] of lists[power]) {
      coefficient += amplitude * Math.cos(phase + frequency * t)
    }
    value = value * t + coefficient
  }
  return value / 1e8
}
