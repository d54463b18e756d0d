/**
 * Sunlight above the air. W/m² on a plane facing the sun; J/m² on the horizontal. A convention says which solar
 * constant and which declination are meant: published tables only come out with their own.
 */
import { RAD_PER_DEG } from './angle.ts'
import { sunsetHourAngle_deg } from './sun-angles.ts'
import { type DeclinationMethod, dayAngle_rad, declination_deg } from './sun-day.ts'

export interface SolarConvention {
  readonly solarConstant_W_m2: number
  readonly declination: DeclinationMethod
  /** Square of mean over actual distance: Spencer's five terms, or the one cosine of the handbooks. */
  readonly distance: 'Spencer' | 'cosine'
}

/** What this project computes with: solar constant of Kopp & Lean, Geophys. Res. Lett. 38 (2011) L01706. */
export const PRESENT: SolarConvention = {
  solarConstant_W_m2: 1361,
  declination: 'Spencer',
  distance: 'Spencer',
}

/** Duffie & Beckman's worked examples. */
export const HANDBOOK: SolarConvention = {
  solarConstant_W_m2: 1367,
  declination: 'Cooper',
  distance: 'cosine',
}

/** FAO Irrigation and Drainage Paper 56, Eqs 21-25: 0.0820 MJ/m² a minute. */
export const FAO_56: SolarConvention = {
  solarConstant_W_m2: 0.082e6 / 60,
  declination: 'FAO-56',
  distance: 'cosine',
}

/** Irradiance (W/m²) above the air on a plane facing the sun. */
export function extraterrestrialNormal_W_m2(dayOfYear: number, convention = PRESENT): number {
  const b = dayAngle_rad(dayOfYear)
  const factor =
    convention.distance === 'cosine'
      ? 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365) // Duffie & Beckman 1.4.1a; FAO-56 Eq. 23
      : 1.00011 +
        0.034221 * Math.cos(b) +
        0.00128 * Math.sin(b) +
        0.000719 * Math.cos(2 * b) +
        0.000077 * Math.sin(2 * b) // Spencer 1971; Duffie & Beckman 1.4.1b
  return convention.solarConstant_W_m2 * factor
}

/**
 * Irradiation (J/m²) on the horizontal above the air between two hour angles (-180 to 180, in order). The part of the
 * span in which the sun is down counts nothing.
 */
export function hourlyExtraterrestrial_J_m2(
  latitude_deg: number,
  declination_deg: number,
  hourAngle1_deg: number,
  hourAngle2_deg: number,
  normal_W_m2: number,
): number {
  const sunset_deg = sunsetHourAngle_deg(latitude_deg, declination_deg)
  const from = Math.max(hourAngle1_deg, -sunset_deg) * RAD_PER_DEG
  const to = Math.min(hourAngle2_deg, sunset_deg) * RAD_PER_DEG
  if (!(to > from)) return 0
  const latitude = latitude_deg * RAD_PER_DEG
  const declination = declination_deg * RAD_PER_DEG
  return (
    ((12 * 3600) / Math.PI) *
    normal_W_m2 *
    (Math.cos(latitude) * Math.cos(declination) * (Math.sin(to) - Math.sin(from)) +
      (to - from) * Math.sin(latitude) * Math.sin(declination))
  ) // Duffie & Beckman 1.10.4
}

/** Irradiation (J/m²) of a whole day on the horizontal above the air; 0 in the polar night. */
export function dailyExtraterrestrial_J_m2(
  latitude_deg: number,
  dayOfYear: number,
  convention = PRESENT,
): number {
  const declination = declination_deg(dayOfYear, convention.declination)
  const normal_W_m2 = extraterrestrialNormal_W_m2(dayOfYear, convention)
  return hourlyExtraterrestrial_J_m2(latitude_deg, declination, -180, 180, normal_W_m2) // Duffie & Beckman 1.10.3
}
