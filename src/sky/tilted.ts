/**
 * Light on a tilted plane from light on the horizontal: beam, circumsolar, sky and ground, W/m². Angles in degrees.
 *
 * Low sun: the handbooks divide by the cosine of zenith, which runs away at the horizon. Here it is held at cos 85° (Perez
 * et al. 1990, Eq. 9), and beam and circumsolar light together never exceed the sunlight above the air; what those
 * bounds take from the circumsolar part stays in the even part, so a flat plane gets exactly the diffuse light measured.
 */
import { RAD_PER_DEG } from './angle.ts'
import { type SkyLight, type SkyModel, skyBrightness } from './sky-brightness.ts'

export interface PlaneLight extends SkyLight {
  /** On the horizontal; what the ground reflects. */
  readonly global_W_m2: number
  /** Angle between sun and plane normal, 0 to 180; beyond 90 the sun is behind the plane. */
  readonly incidence_deg: number
  /** 0 flat, 90 upright, up to 180 facing down. */
  readonly tilt_deg: number
  /** Share of light that the ground reflects, 0 to 1. */
  readonly albedo: number
  /** Share of an even sky's light that the plane gets; (1 + cos tilt)/2 for a free horizon unless given. */
  readonly skyViewFactor?: number
  /** True while the horizon hides the sun: no beam and no circumsolar light. */
  readonly sunHidden?: boolean
}

export interface OnPlane {
  readonly beam_W_m2: number
  readonly circumsolar_W_m2: number
  /** Even dome and horizon band. */
  readonly skyDiffuse_W_m2: number
  readonly ground_W_m2: number
  readonly total_W_m2: number
}

const LEAST_COS_ZENITH = Math.cos(85 * RAD_PER_DEG)

/** The light on the plane. Needs irradiances >= 0 and beamNormal <= extraterrestrialNormal; RangeError otherwise. */
export function onPlane(model: SkyModel, light: PlaneLight): OnPlane {
  checkIrradiances(light)
  const cosTilt = Math.cos(light.tilt_deg * RAD_PER_DEG)
  const cosZenith = Math.max(Math.cos(light.zenith_deg * RAD_PER_DEG), 0)
  const facing = light.sunHidden ? 0 : Math.max(Math.cos(light.incidence_deg * RAD_PER_DEG), 0)
  const dome = light.skyViewFactor ?? (1 + cosTilt) / 2
  const brightness = skyBrightness(model, light)

  const haloNormal_W_m2 = Math.min(
    (brightness.circumsolar * light.diffuse_W_m2) / Math.max(cosZenith, LEAST_COS_ZENITH),
    light.extraterrestrialNormal_W_m2 - light.beamNormal_W_m2,
  )
  const even_W_m2 = light.diffuse_W_m2 - haloNormal_W_m2 * cosZenith
  const band_W_m2 = light.diffuse_W_m2 * brightness.horizon * Math.sin(light.tilt_deg * RAD_PER_DEG)

  const beam_W_m2 = cosZenith > 0 ? light.beamNormal_W_m2 * facing : 0
  const circumsolar_W_m2 = haloNormal_W_m2 * facing
  const skyDiffuse_W_m2 = Math.max(even_W_m2 * dome + band_W_m2, 0) // Perez et al. 1990, Eq. 9; D & B 2.16.4
  const ground_W_m2 = (light.global_W_m2 * light.albedo * (1 - cosTilt)) / 2 // Duffie & Beckman 2.15.1
  return {
    beam_W_m2,
    circumsolar_W_m2,
    skyDiffuse_W_m2,
    ground_W_m2,
    total_W_m2: beam_W_m2 + circumsolar_W_m2 + skyDiffuse_W_m2 + ground_W_m2,
  }
}

function checkIrradiances(light: PlaneLight): void {
  if (!(light.diffuse_W_m2 >= 0 && light.global_W_m2 >= 0))
    throw new RangeError(
      `irradiances must be 0 or more: diffuse ${light.diffuse_W_m2}, global ${light.global_W_m2} W/m²`,
    )
  if (!(light.beamNormal_W_m2 >= 0 && light.beamNormal_W_m2 <= light.extraterrestrialNormal_W_m2))
    throw new RangeError(
      `beam light must lie between 0 and that above the air: ${light.beamNormal_W_m2} against ${light.extraterrestrialNormal_W_m2} W/m²`,
    )
}
