/**
 * Angle between the sun and the normal of a plane. Degrees; tilt 0 lies flat facing up, 90 stands, 180 faces down;
 * azimuth of the way the plane faces, clockwise from north; any orientation, both hemispheres.
 */
import { RAD_PER_DEG } from './angle.ts'

/** Cosine of incidence for a sun at a given elevation and azimuth; negative when it stands behind the plane. */
export function incidenceCosine(
  sunElevation_deg: number,
  sunAzimuth_deg: number,
  tilt_deg: number,
  planeAzimuth_deg: number,
): number {
  const elevation = sunElevation_deg * RAD_PER_DEG
  const tilt = tilt_deg * RAD_PER_DEG
  const between = (sunAzimuth_deg - planeAzimuth_deg) * RAD_PER_DEG
  return Math.sin(elevation) * Math.cos(tilt) + Math.cos(elevation) * Math.sin(tilt) * Math.cos(between) // Duffie & Beckman 1.6.3
}

/** A unit vector at a place. */
export interface Direction {
  readonly up: number
  readonly south: number
  readonly west: number
}

/** The way to the sun from declination and hour angle, for tables of a year. */
export function sunDirection(
  latitude_deg: number,
  declination_deg: number,
  hourAngle_deg: number,
): Direction {
  const latitude = latitude_deg * RAD_PER_DEG
  const declination = declination_deg * RAD_PER_DEG
  const hourAngle = hourAngle_deg * RAD_PER_DEG
  return {
    up:
      Math.sin(latitude) * Math.sin(declination) +
      Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle),
    south:
      Math.sin(latitude) * Math.cos(declination) * Math.cos(hourAngle) -
      Math.cos(latitude) * Math.sin(declination),
    west: Math.cos(declination) * Math.sin(hourAngle),
  }
}

/** The way a plane faces. */
export function planeNormal(tilt_deg: number, planeAzimuth_deg: number): Direction {
  const tilt = tilt_deg * RAD_PER_DEG
  const fromSouth = (planeAzimuth_deg - 180) * RAD_PER_DEG
  return {
    up: Math.cos(tilt),
    south: Math.sin(tilt) * Math.cos(fromSouth),
    west: Math.sin(tilt) * Math.sin(fromSouth),
  }
}

/** Cosine of incidence from declination and hour angle: Duffie & Beckman 1.6.2, terms gathered by direction. */
export function incidenceCosineAt(
  latitude_deg: number,
  declination_deg: number,
  hourAngle_deg: number,
  tilt_deg: number,
  planeAzimuth_deg: number,
): number {
  const sun = sunDirection(latitude_deg, declination_deg, hourAngle_deg)
  const normal = planeNormal(tilt_deg, planeAzimuth_deg)
  return sun.up * normal.up + sun.south * normal.south + sun.west * normal.west
}
