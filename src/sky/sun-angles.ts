/**
 * The sun over one place from declination and hour angle, without refraction or parallax. Degrees; latitude north
 * positive; hour angle 0 at solar noon, 15 an hour, afternoon positive; azimuth clockwise from north.
 */
import { RAD_PER_DEG, wrap360_deg } from './angle.ts'

/** Hour angle of a solar time of day in hours (12 is solar noon). */
export function hourAngle_deg(solarTime_h: number): number {
  return 15 * (solarTime_h - 12)
}

/** Cosine of the zenith angle; negative while the sun is down. */
export function cosZenith(latitude_deg: number, declination_deg: number, hourAngle_deg: number): number {
  const latitude = latitude_deg * RAD_PER_DEG
  const declination = declination_deg * RAD_PER_DEG
  return (
    Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle_deg * RAD_PER_DEG) +
    Math.sin(latitude) * Math.sin(declination)
  ) // Duffie & Beckman 1.6.5
}

/** Azimuth of the sun, 0 to 360. At the zenith, where it has none, 180. */
export function solarAzimuth_deg(
  latitude_deg: number,
  declination_deg: number,
  hourAngle_deg: number,
): number {
  const latitude = latitude_deg * RAD_PER_DEG
  const declination = declination_deg * RAD_PER_DEG
  const hourAngle = hourAngle_deg * RAD_PER_DEG
  const west = Math.cos(declination) * Math.sin(hourAngle)
  const south =
    Math.sin(latitude) * Math.cos(declination) * Math.cos(hourAngle) -
    Math.cos(latitude) * Math.sin(declination)
  return wrap360_deg(180 + Math.atan2(west, south) / RAD_PER_DEG) // Duffie & Beckman 1.6.6, by quadrant
}

/** Hour angle at which the centre of the sun sets: 0 in the polar night, 180 in the polar day. */
export function sunsetHourAngle_deg(latitude_deg: number, declination_deg: number): number {
  const cosine = -Math.tan(latitude_deg * RAD_PER_DEG) * Math.tan(declination_deg * RAD_PER_DEG)
  return Math.acos(Math.min(Math.max(cosine, -1), 1)) / RAD_PER_DEG // Duffie & Beckman 1.6.10
}

/** Hours between geometric sunrise and sunset (centre of the sun, no refraction), 0 to 24. */
export function dayLength_h(latitude_deg: number, declination_deg: number): number {
  return (2 / 15) * sunsetHourAngle_deg(latitude_deg, declination_deg) // Duffie & Beckman 1.6.11; FAO-56 Eq. 34
}
