/** How much the air lifts the sun. */
import { RAD_PER_DEG } from './angle.ts'

export interface Air {
  readonly pressure_hPa: number
  readonly temperature_C: number
}

/** The air of refraction tables. */
export const REFERENCE_AIR: Air = { pressure_hPa: 1010, temperature_C: 10 }

/** Semi-diameter of the sun and refraction at the horizon: below their sum no part of the sun is seen. */
const SUN_GONE_deg = -(0.26667 + 0.5667)

/** Lift in degrees at a true elevation (Sæmundsson 1986); 0 when the whole sun is below the horizon. */
export function refraction_deg(elevation_deg: number, air = REFERENCE_AIR): number {
  if (elevation_deg < SUN_GONE_deg) return 0
  const density = (air.pressure_hPa / 1010) * (283 / (273 + air.temperature_C))
  const argument = (elevation_deg + 10.3 / (elevation_deg + 5.11)) * RAD_PER_DEG
  return (density * 1.02) / (60 * Math.tan(argument)) // Reda & Andreas 2008, Eq. 42
}
