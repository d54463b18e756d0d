/**
 * How the diffuse light lies on the sky: a share that comes from around the sun, and an extra that comes from the
 * horizon (both of the diffuse light on the horizontal; the rest comes evenly from the whole dome).
 */
import { RAD_PER_DEG } from './angle.ts'
import { PEREZ_CLEARNESS_EDGES, PEREZ_COEFFICIENTS } from './perez-coefficients.ts'

export type SkyModel = 'isotropic' | 'hay-davies' | 'perez'

export interface SkyBrightness {
  /** 0 to 1. */
  readonly circumsolar: number
  /** Per sine of tilt; negative under an overcast sky, which is darker at the horizon. */
  readonly horizon: number
}

/** The light that a brightness model looks at; `airMass` is the relative one, used by Perez. */
export interface SkyLight {
  readonly beamNormal_W_m2: number
  readonly diffuse_W_m2: number
  readonly extraterrestrialNormal_W_m2: number
  readonly zenith_deg: number
  readonly airMass: number
}

const EVEN: SkyBrightness = { circumsolar: 0, horizon: 0 }

/** An even sky (Liu & Jordan), Hay & Davies 1980, or Perez et al. 1990. Even where there is no sun or no diffuse light. */
export function skyBrightness(model: SkyModel, light: SkyLight): SkyBrightness {
  if (light.zenith_deg >= 90 || light.diffuse_W_m2 <= 0) return EVEN
  switch (model) {
    case 'isotropic':
      return EVEN
    case 'hay-davies': {
      const anisotropy = light.beamNormal_W_m2 / light.extraterrestrialNormal_W_m2 // Duffie & Beckman 2.16.2, 2.16.3
      return { circumsolar: Math.min(anisotropy, 1), horizon: 0 }
    }
    case 'perez':
      return perezBrightness(light)
  }
}

/** Perez et al. 1990, Eqs 1, 2, 6, 7; zenith in radians. */
function perezBrightness(light: SkyLight): SkyBrightness {
  const zenith = light.zenith_deg * RAD_PER_DEG
  const cubed = 1.041 * zenith ** 3
  const clearness = (1 + light.beamNormal_W_m2 / light.diffuse_W_m2 + cubed) / (1 + cubed) // Eq. 1
  // Held at 1, beyond any sky that was measured: an hour's mean over the air mass of its midpoint can run away at low sun.
  const brightness = Math.min((light.diffuse_W_m2 * light.airMass) / light.extraterrestrialNormal_W_m2, 1) // Eq. 2
  let bin = 0
  while (bin < PEREZ_CLEARNESS_EDGES.length && clearness >= PEREZ_CLEARNESS_EDGES[bin]) bin++
  const [f11, f12, f13, f21, f22, f23] = PEREZ_COEFFICIENTS[bin]
  const circumsolar = f11 + f12 * brightness + f13 * zenith // Eq. 6
  return {
    circumsolar: Math.min(Math.max(circumsolar, 0), 1),
    horizon: f21 + f22 * brightness + f23 * zenith, // Eq. 7
  }
}
