/** How much air the sunlight crosses, and how much of it there is at a height. */
import { RAD_PER_DEG } from './angle.ts'

const SEA_LEVEL_Pa = 101325

/**
 * Relative optical air mass (1 for the zenith) at the apparent zenith angle in degrees: Kasten & Young, Applied Optics 28
 * (1989) 4735-4738. Held at its horizon value, 37.92, while the sun is down.
 */
export function airMass(zenith_deg: number): number {
  if (!(zenith_deg >= 0 && zenith_deg <= 180))
    throw new RangeError(`a zenith angle must be 0 to 180 degrees, got ${zenith_deg}`)
  const zenith = Math.min(zenith_deg, 90)
  return 1 / (Math.cos(zenith * RAD_PER_DEG) + 0.50572 * (96.07995 - zenith) ** -1.6364) // Kasten & Young 1989, Eq. 3
}

/** Pressure (Pa) of the standard atmosphere at a height above the sea, -500 m to 11 km (ISO 2533, troposphere). */
export function standardPressure_Pa(elevation_m: number): number {
  if (!(elevation_m >= -500 && elevation_m <= 11000))
    throw new RangeError(`an elevation must be -500 to 11000 m, got ${elevation_m}`)
  return SEA_LEVEL_Pa * (1 - 2.25577e-5 * elevation_m) ** 5.25588
}

/** Air mass corrected for the pressure at a height above the sea. */
export function absoluteAirMass(zenith_deg: number, elevation_m: number): number {
  return (airMass(zenith_deg) * standardPressure_Pa(elevation_m)) / SEA_LEVEL_Pa
}
