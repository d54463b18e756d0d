/**
 * Light on the panel's plane from a day's clearness or an hour's measured light, a few products a step: all geometry of
 * the year is in tables. The sky is Hay & Davies', with the bounds of `onPlane` in `sky/tilted.ts`, which this equals.
 */
import { RAD_PER_DEG, wrap180_deg } from '../sky/angle.ts'
import { DAYS } from '../sky/calendar.ts'
import type { DayShapes } from '../sky/day-shape.ts'
import { erbsDaily } from '../sky/diffuse-split.ts'
import { dailyExtraterrestrial_J_m2, extraterrestrialNormal_W_m2 } from '../sky/extraterrestrial.ts'
import { isSunHidden, skyViewFactor } from '../sky/horizon.ts'
import { type Direction, planeNormal, sunDirection } from '../sky/incidence.ts'
import type { Place } from '../sky/place.ts'
import { cosZenith, solarAzimuth_deg } from '../sky/sun-angles.ts'
import { declination_deg } from '../sky/sun-day.ts'

const LEAST_COS_ZENITH = Math.cos(85 * RAD_PER_DEG) // Perez et al. 1990, Eq. 9

export interface Plane {
  readonly stepsPerHour: number
  /** One a step: light on the horizontal at clearness 1, and the same if all of it were diffuse, W/m². */
  readonly global_W_m2: Float64Array
  readonly diffuse_W_m2: Float64Array
  /** One a step: light above the air on the horizontal, W/m², and the mean cosine of zenith while the sun is up. */
  readonly above_W_m2: Float64Array
  readonly cosZenith: Float64Array
  /** One a step: cosine of incidence; 0 with the sun behind the plane or the horizon. */
  readonly facing: Float64Array
  /** One a day: above the air, facing the sun. */
  readonly normal_W_m2: Float64Array
  readonly sunset_deg: Float64Array
  /** Shares of an even sky's light, and of the horizontal's by way of the ground, that reach the plane. */
  readonly dome: number
  readonly ground: number
}

/** The plane on ground that reflects nothing; see `onGround`. `shapes` must be those of the place. */
export function planeOf(place: Place<number>, shapes: DayShapes): Plane {
  const { tilt_deg, azimuth_deg, horizon } = place
  const overhead = overheadOf(place, shapes)
  const { up, south, west } = overhead
  return inOneShape(overhead, {
    facing: incidences(planeNormal(tilt_deg, azimuth_deg), up, south, west),
    dome: skyViewFactor(horizon, tilt_deg, azimuth_deg),
    ground: 0,
  })
}

type OfPlane = Pick<Plane, 'facing' | 'dome' | 'ground'>

/** By one literal, as plans are: what comes from a spread has a shape of its own to the compiler. */
const inOneShape = (overhead: Omit<Plane, keyof OfPlane>, { facing, dome, ground }: OfPlane): Plane => ({
  stepsPerHour: overhead.stepsPerHour,
  global_W_m2: overhead.global_W_m2,
  diffuse_W_m2: overhead.diffuse_W_m2,
  above_W_m2: overhead.above_W_m2,
  cosZenith: overhead.cosZenith,
  facing,
  normal_W_m2: overhead.normal_W_m2,
  sunset_deg: overhead.sunset_deg,
  dome,
  ground,
})

function incidences(
  normal: Direction,
  up: Float64Array,
  south: Float64Array,
  west: Float64Array,
): Float64Array {
  const facing = new Float64Array(up.length)
  for (let i = 0; i < facing.length; i++)
    facing[i] = Math.max(normal.up * up[i] + normal.south * south[i] + normal.west * west[i], 0)
  return facing
}

/** What every plane at a place shares, and the way to the sun: all 0 while it is down or behind the horizon. */
interface Overhead extends Omit<Plane, keyof OfPlane> {
  readonly up: Float64Array
  readonly south: Float64Array
  readonly west: Float64Array
}

/** Tilt and azimuth are drawn anew for every run, the sun's path is not: kept with the shapes that it belongs to. */
const known = new WeakMap<DayShapes, { horizon: Place<number>['horizon']; overhead: Overhead }>()

function overheadOf({ latitude_deg, horizon }: Place<number>, shapes: DayShapes): Overhead {
  const before = known.get(shapes)
  if (before?.horizon === horizon) return before.overhead
  const { stepsPerHour, globalShare, diffuseShare, sky, sunsetHourAngle_deg } = shapes
  const perDay = 24 * stepsPerHour
  const step_s = 3600 / stepsPerHour
  const width_deg = 15 / stepsPerHour
  const overhead: Overhead = {
    stepsPerHour,
    global_W_m2: new Float64Array(DAYS * perDay),
    diffuse_W_m2: new Float64Array(DAYS * perDay),
    above_W_m2: sky.horizontal_W_m2,
    cosZenith: sky.cosZenith,
    normal_W_m2: new Float64Array(DAYS),
    sunset_deg: sunsetHourAngle_deg,
    up: new Float64Array(DAYS * perDay),
    south: new Float64Array(DAYS * perDay),
    west: new Float64Array(DAYS * perDay),
  }
  for (let day = 0; day < DAYS; day++) {
    const declination = declination_deg(day + 1)
    const sunset = sunsetHourAngle_deg[day]
    const daily_W_m2 = dailyExtraterrestrial_J_m2(latitude_deg, day + 1) / step_s
    overhead.normal_W_m2[day] = extraterrestrialNormal_W_m2(day + 1)
    for (let step = 0; step < perDay; step++) {
      const i = day * perDay + step
      if (sky.cosZenith[i] <= 0) continue
      overhead.global_W_m2[i] = daily_W_m2 * globalShare[i]
      overhead.diffuse_W_m2[i] = daily_W_m2 * diffuseShare[i]
      // Where the sun rises or sets within the step, its light comes from the part in which it is up.
      const middle = wrap180_deg(sky.midnightHourAngle_deg[day] + (step + 0.5) * width_deg)
      const up = (Math.max(middle - width_deg / 2, -sunset) + Math.min(middle + width_deg / 2, sunset)) / 2
      const elevation = Math.asin(Math.min(cosZenith(latitude_deg, declination, up), 1)) / RAD_PER_DEG
      const hidden =
        horizon.length > 0 && isSunHidden(horizon, elevation, solarAzimuth_deg(latitude_deg, declination, up))
      if (hidden) continue
      const towards = sunDirection(latitude_deg, declination, up)
      overhead.up[i] = towards.up
      overhead.south[i] = towards.south
      overhead.west[i] = towards.west
    }
  }
  known.set(shapes, { horizon, overhead })
  return overhead
}

/** The same plane with the ground's light; apart, so that a drawn albedo costs no new table. Duffie & Beckman 2.15.1. */
export const onGround = (plane: Plane, { albedo, tilt_deg }: Place<number>): Plane =>
  inOneShape(plane, {
    facing: plane.facing,
    dome: plane.dome,
    ground: (albedo * (1 - Math.cos(tilt_deg * RAD_PER_DEG))) / 2,
  })

/** Writes the light on the plane (W/m²) of day 0..364 at a daily clearness into `light`, one value a step. */
export function dayOnPlane(plane: Plane, day: number, clearness: number, light: Float64Array): void {
  const { global_W_m2, diffuse_W_m2, above_W_m2, cosZenith, facing, normal_W_m2 } = plane
  const normal = normal_W_m2[day]
  const diffuseShare = erbsDaily(clearness, plane.sunset_deg[day])
  for (let step = 0, i = day * light.length; step < light.length; step++, i++) {
    const cosine = cosZenith[i]
    if (cosine <= 0) {
      light[step] = 0
      continue
    }
    const global = Math.min(clearness * global_W_m2[i], above_W_m2[i])
    const diffuse = Math.min(clearness * diffuseShare * diffuse_W_m2[i], global)
    light[step] = lightOnPlane_W_m2(plane, global, diffuse, cosine, facing[i], normal)
  }
}

/**
 * Light on the plane from global and diffuse light on the horizontal, all W/m², with the sun at `cosine` of zenith,
 * `facing` (cosine of incidence, 0 when hidden) and `normal` above the air.
 */
export function lightOnPlane_W_m2(
  plane: Plane,
  global: number,
  diffuse: number,
  cosine: number,
  facing: number,
  normal: number,
): number {
  const bounded = Math.max(cosine, LEAST_COS_ZENITH)
  const beamNormal = Math.min((global - diffuse) / bounded, normal)
  const haloNormal = Math.min(((beamNormal / normal) * diffuse) / bounded, normal - beamNormal) // D & B 2.16.2
  return (
    (beamNormal + haloNormal) * facing + (diffuse - haloNormal * cosine) * plane.dome + global * plane.ground
  )
}
