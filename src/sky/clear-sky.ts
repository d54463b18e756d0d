/**
 * Light under a cloudless sky: Ineichen & Perez, "A new airmass independent formulation for the Linke turbidity
 * coefficient", Solar Energy 73 (2002) 151-157. Linke turbidity: 2 very clear and cold, 3 clear, 4 to 5 warm and moist,
 * above 6 polluted.
 */
import { absoluteAirMass } from './air-mass.ts'
import { RAD_PER_DEG } from './angle.ts'

export interface ClearSky {
  readonly beamNormal_W_m2: number
  readonly diffuse_W_m2: number
  readonly global_W_m2: number
}

/** Clear-sky light for an apparent zenith angle (0 to 180) and a site's elevation; all 0 while the sun is down. */
export function clearSky(
  zenith_deg: number,
  elevation_m: number,
  extraterrestrialNormal_W_m2: number,
  turbidity: number,
): ClearSky {
  if (!(turbidity >= 1)) throw new RangeError(`a Linke turbidity must be 1 or more, got ${turbidity}`)
  const cosZenith = Math.cos(zenith_deg * RAD_PER_DEG)
  if (!(zenith_deg < 90)) return { beamNormal_W_m2: 0, diffuse_W_m2: 0, global_W_m2: 0 }
  const mass = absoluteAirMass(zenith_deg, elevation_m)
  const clean = Math.exp(-elevation_m / 8000)
  const hazy = Math.exp(-elevation_m / 1250)
  const c1 = 5.09e-5 * elevation_m + 0.868
  const c2 = 3.92e-5 * elevation_m + 0.0387
  const global_W_m2 =
    c1 * extraterrestrialNormal_W_m2 * cosZenith * Math.exp(-c2 * mass * (clean + hazy * (turbidity - 1)))

  const beam_W_m2 =
    (0.664 + 0.163 / clean) * extraterrestrialNormal_W_m2 * Math.exp(-0.09 * mass * (turbidity - 1))
  // At low sun, where that beam would outgrow the global light: the least diffuse share that was observed.
  const leastDiffuseShare = (0.1 - 0.2 * Math.exp(-turbidity)) / (0.1 + 0.882 / clean)
  const beamNormal_W_m2 = Math.min(beam_W_m2, (global_W_m2 * (1 - leastDiffuseShare)) / cosZenith)
  return { beamNormal_W_m2, diffuse_W_m2: global_W_m2 - beamNormal_W_m2 * cosZenith, global_W_m2 }
}
