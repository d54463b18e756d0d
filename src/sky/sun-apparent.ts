/** The sun seen from the centre of the Earth: Reda & Andreas 2008 (NREL/TP-560-34302), sections 3.3 to 3.10 and A.1. */
import { RAD_PER_DEG, wrap180_deg, wrap360_deg } from './angle.ts'
import { deltaT_s, julianCentury } from './julian-day.ts'
import { earthPosition } from './sun-earth.ts'
import { meanObliquity_deg, nutation } from './sun-nutation.ts'

export interface ApparentSun {
  readonly longitude_deg: number
  readonly rightAscension_deg: number
  readonly declination_deg: number
  readonly distance_au: number
  /** Apparent sidereal time at Greenwich. */
  readonly siderealTime_deg: number
  /** Apparent less mean solar time; positive when the sundial is ahead. */
  readonly equationOfTime_min: number
}

/** The apparent sun at a Julian day (UT). `lag_s` is terrestrial less universal time. */
export function apparentSun(day: number, lag_s = deltaT_s(day)): ApparentSun {
  const century = julianCentury(day + lag_s / 86400)
  const millennium = century / 10
  const earth = earthPosition(millennium)
  const wobble = nutation(century)
  const obliquity_deg = meanObliquity_deg(millennium) + wobble.obliquity_deg // Eq. 25

  const aberration_deg = -20.4898 / (3600 * earth.distance_au) // Eq. 26
  const longitude_deg = earth.longitude_deg + 180 + wobble.longitude_deg + aberration_deg // Eqs 13, 27
  const longitude = longitude_deg * RAD_PER_DEG
  const latitude = -earth.latitude_deg * RAD_PER_DEG // Eq. 14
  const obliquity = obliquity_deg * RAD_PER_DEG

  const rightAscension = Math.atan2(
    Math.sin(longitude) * Math.cos(obliquity) - Math.tan(latitude) * Math.sin(obliquity),
    Math.cos(longitude),
  ) // Eq. 30
  const declination = Math.asin(
    Math.sin(latitude) * Math.cos(obliquity) + Math.cos(latitude) * Math.sin(obliquity) * Math.sin(longitude),
  ) // Eq. 31
  const rightAscension_deg = wrap360_deg(rightAscension / RAD_PER_DEG)
  const equinoxes_deg = wobble.longitude_deg * Math.cos(obliquity)
  return {
    longitude_deg: wrap360_deg(longitude_deg),
    rightAscension_deg,
    declination_deg: declination / RAD_PER_DEG,
    distance_au: earth.distance_au,
    siderealTime_deg: wrap360_deg(meanSiderealTime_deg(day) + equinoxes_deg), // Eq. 29
    equationOfTime_min:
      4 * wrap180_deg(meanLongitude_deg(millennium) - 0.0057183 - rightAscension_deg + equinoxes_deg), // Eq. A1
  }
}

function meanSiderealTime_deg(day: number): number {
  const t = julianCentury(day)
  return 280.46061837 + 360.98564736629 * t * 36525 + t ** 2 * (0.000387933 - t / 38710000) // Eq. 28
}

/** Mean longitude of the sun at Julian ephemeris millennia from J2000.0. */
function meanLongitude_deg(t: number): number {
  return (
    280.4664567 + t * (360007.6982779 + t * (0.03032028 + t * (1 / 49931 - t * (1 / 15300 + t / 2000000))))
  ) // Eq. A2
}
