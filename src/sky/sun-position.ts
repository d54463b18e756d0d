/**
 * Where the sun stands for an observer, to 0.001°: the Solar Position Algorithm of Reda & Andreas, NREL/TP-560-34302
 * (2008). Valid from the year -2000 to 6000 for a known difference of terrestrial and universal time; with the formula
 * used here, to 0.001° for 1900 to 2100. Degrees; longitude east positive; azimuth clockwise from north.
 */
import { RAD_PER_DEG, wrap360_deg } from './angle.ts'
import { julianDay } from './julian-day.ts'
import { type ApparentSun, apparentSun } from './sun-apparent.ts'
import { REFERENCE_AIR, refraction_deg } from './sun-refraction.ts'

export interface SunPosition {
  /** Of the sun's centre, without refraction; parallax included. */
  readonly elevation_deg: number
  readonly refractedElevation_deg: number
  /** 0 to 360. */
  readonly azimuth_deg: number
  readonly declination_deg: number
  readonly equationOfTime_min: number
  readonly distance_au: number
}

/**
 * The sun at Unix milliseconds (UTC) over a place; elevation in metres matters only for the parallax. RangeError for a
 * latitude beyond ±90 or a longitude beyond ±180.
 */
export function sunPosition(
  time_ms: number,
  latitude_deg: number,
  longitude_deg: number,
  elevation_m = 0,
  air = REFERENCE_AIR,
): SunPosition {
  checkCoordinates(latitude_deg, longitude_deg)
  const sun = apparentSun(julianDay(time_ms))
  const seen = topocentric(sun, latitude_deg, longitude_deg, elevation_m)
  return {
    elevation_deg: seen.elevation_deg,
    refractedElevation_deg: seen.elevation_deg + refraction_deg(seen.elevation_deg, air), // Eq. 43
    azimuth_deg: seen.azimuth_deg,
    declination_deg: sun.declination_deg,
    equationOfTime_min: sun.equationOfTime_min,
    distance_au: sun.distance_au,
  }
}

/** Refuses a place that is not on the globe. */
export function checkCoordinates(latitude_deg: number, longitude_deg: number): void {
  if (!(Math.abs(latitude_deg) <= 90))
    throw new RangeError(`a latitude must be -90 to 90 degrees, got ${latitude_deg}`)
  if (!(Math.abs(longitude_deg) <= 180))
    throw new RangeError(`a longitude must be -180 to 180 degrees, got ${longitude_deg}`)
}

export interface TopocentricSun {
  readonly rightAscension_deg: number
  readonly declination_deg: number
  readonly hourAngle_deg: number
  readonly elevation_deg: number
  readonly azimuth_deg: number
}

/** The sun from a place on the Earth's surface instead of its centre, without refraction: sections 3.11 to 3.14. */
export function topocentric(
  sun: ApparentSun,
  latitude_deg: number,
  longitude_deg: number,
  elevation_m: number,
): TopocentricSun {
  const latitude = latitude_deg * RAD_PER_DEG
  const declination = sun.declination_deg * RAD_PER_DEG
  const hourAngle_deg = wrap360_deg(sun.siderealTime_deg + longitude_deg - sun.rightAscension_deg) // Eq. 32
  const hourAngle = hourAngle_deg * RAD_PER_DEG

  const parallax = (8.794 / (3600 * sun.distance_au)) * RAD_PER_DEG // Eq. 33
  const reduced = Math.atan(0.99664719 * Math.tan(latitude)) // Eq. 34
  const x = Math.cos(reduced) + (elevation_m / 6378140) * Math.cos(latitude) // Eq. 35
  const y = 0.99664719 * Math.sin(reduced) + (elevation_m / 6378140) * Math.sin(latitude) // Eq. 36
  const across = Math.cos(declination) - x * Math.sin(parallax) * Math.cos(hourAngle)
  const shift = Math.atan2(-x * Math.sin(parallax) * Math.sin(hourAngle), across) // Eq. 37
  const seenDeclination = Math.atan2(
    (Math.sin(declination) - y * Math.sin(parallax)) * Math.cos(shift),
    across,
  ) // Eq. 39
  const seenHourAngle = hourAngle - shift // Eq. 40

  const up =
    Math.sin(latitude) * Math.sin(seenDeclination) +
    Math.cos(latitude) * Math.cos(seenDeclination) * Math.cos(seenHourAngle) // Eq. 41
  const azimuth = Math.atan2(
    Math.sin(seenHourAngle),
    Math.cos(seenHourAngle) * Math.sin(latitude) - Math.tan(seenDeclination) * Math.cos(latitude),
  ) // Eq. 45
  return {
    rightAscension_deg: sun.rightAscension_deg + shift / RAD_PER_DEG, // Eq. 38
    declination_deg: seenDeclination / RAD_PER_DEG,
    hourAngle_deg: seenHourAngle / RAD_PER_DEG,
    elevation_deg: Math.asin(Math.min(Math.max(up, -1), 1)) / RAD_PER_DEG,
    azimuth_deg: wrap360_deg(azimuth / RAD_PER_DEG + 180), // Eq. 46
  }
}
