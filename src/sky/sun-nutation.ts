/** The wobble and slant of the Earth's axis: Reda & Andreas 2008 (NREL/TP-560-34302), sections 3.4 and 3.5. */
import { RAD_PER_DEG } from './angle.ts'
import { NUTATION_TERMS } from './sun-nutation-terms.ts'

export interface Nutation {
  readonly longitude_deg: number
  readonly obliquity_deg: number
}

/** Nutation at Julian ephemeris centuries `t` from J2000.0. */
export function nutation(t: number): Nutation {
  const elongation = 297.85036 + t * (445267.11148 + t * (-0.0019142 + t / 189474)) // Eq. 15
  const sunAnomaly = 357.52772 + t * (35999.05034 + t * (-0.0001603 - t / 300000)) // Eq. 16
  const moonAnomaly = 134.96298 + t * (477198.867398 + t * (0.0086972 + t / 56250)) // Eq. 17
  const latitude = 93.27191 + t * (483202.017538 + t * (-0.0036825 + t / 327270)) // Eq. 18
  const node = 125.04452 + t * (-1934.136261 + t * (0.0020708 + t / 450000)) // Eq. 19
  let longitude = 0
  let obliquity = 0
  for (const [d, m, m1, f, n, a, b, c, e] of NUTATION_TERMS) {
    const angle_deg = d * elongation + m * sunAnomaly + m1 * moonAnomaly + f * latitude + n * node
    longitude += (a + b * t) * Math.sin(angle_deg * RAD_PER_DEG) // Eqs 20, 22
    obliquity += (c + e * t) * Math.cos(angle_deg * RAD_PER_DEG) // Eqs 21, 23
  }
  return { longitude_deg: longitude / 36e6, obliquity_deg: obliquity / 36e6 }
}

/** Slant of the Earth's axis (degrees) without nutation, at Julian ephemeris millennia `t` from J2000.0. */
export function meanObliquity_deg(t: number): number {
  const u = t / 10
  const arcseconds = [
    84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45,
  ].reduceRight((sum, coefficient) => sum * u + coefficient, 0) // Eq. 24
  return arcseconds / 3600
}
