/** What hills and trees take of the sky. Degrees; azimuth clockwise from north; points sorted by azimuth, read as a ring. */
import { RAD_PER_DEG, wrap360_deg } from './angle.ts'
import type { HorizonPoint } from './place.ts'

/** Elevation of the horizon in a direction, linear between points; 0 all round without any. */
export function horizonElevation_deg(points: readonly HorizonPoint[], azimuth_deg: number): number {
  if (points.length === 0) return 0
  const azimuth = wrap360_deg(azimuth_deg)
  const next = points.findIndex((point) => point.azimuth_deg > azimuth)
  const after = points[Math.max(next, 0)]
  const before = points[next > 0 ? next - 1 : points.length - 1]
  const span = wrap360_deg(after.azimuth_deg - before.azimuth_deg)
  if (span === 0) return before.elevation_deg
  const along = wrap360_deg(azimuth - before.azimuth_deg) / span
  return before.elevation_deg + along * (after.elevation_deg - before.elevation_deg)
}

/** True while the sun is not above the horizon line. */
export function isSunHidden(
  points: readonly HorizonPoint[],
  sunElevation_deg: number,
  sunAzimuth_deg: number,
): boolean {
  return sunElevation_deg <= horizonElevation_deg(points, sunAzimuth_deg)
}

/** Slices of azimuth in the integral: error below 1e-4 for horizons drawn at 10° or wider. */
const SLICES = 720

const middleOf = (slice: number): number => ((slice + 0.5) * 360) / SLICES

/** Elevation of the horizon in each slice (rad); a horizon serves many planes, so it is kept. */
const skylines = new WeakMap<readonly HorizonPoint[], Float64Array>()

function skylineOf(points: readonly HorizonPoint[]): Float64Array {
  let skyline = skylines.get(points)
  if (skyline === undefined) {
    skyline = Float64Array.from(
      { length: SLICES },
      (_, slice) => horizonElevation_deg(points, middleOf(slice)) * RAD_PER_DEG,
    )
    skylines.set(points, skyline)
  }
  return skyline
}

/**
 * Share of an even sky's light (as on a free horizontal plane) that a plane gets over a horizon: (1 + cos tilt)/2 when
 * it is free. Integrates cos(incidence) over the sky that is above both horizon and plane, exactly in elevation and by
 * midpoints in azimuth. A horizon below 0° adds no sky.
 */
export function skyViewFactor(
  points: readonly HorizonPoint[],
  tilt_deg: number,
  planeAzimuth_deg: number,
): number {
  const up = Math.cos(tilt_deg * RAD_PER_DEG)
  const sideways = Math.sin(tilt_deg * RAD_PER_DEG)
  const skyline = skylineOf(points)
  let sum = 0
  for (let slice = 0; slice < SLICES; slice++) {
    const towards = sideways * Math.cos((middleOf(slice) - planeAzimuth_deg) * RAD_PER_DEG)
    // In this slice cos(incidence) = up sin h + towards cos h, positive for h from -lead to 180° - lead.
    const lead = Math.atan2(towards, up)
    const low = Math.max(-lead, skyline[slice], 0)
    const high = Math.min(Math.PI - lead, Math.PI / 2)
    if (high > low) sum += sliceIntegral(high, up, towards) - sliceIntegral(low, up, towards)
  }
  return (2 * sum) / SLICES // 1/π of the hemisphere integral, slices 2π/SLICES wide
}

/** Integral of (up sin h + towards cos h) cos h over elevation, from 0 to h (rad). */
function sliceIntegral(h: number, up: number, towards: number): number {
  return (up * Math.sin(h) ** 2) / 2 + towards * (h / 2 + Math.sin(2 * h) / 4)
}
