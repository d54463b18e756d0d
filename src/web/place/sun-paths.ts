/** Where the sun goes over a place on the 21st of each month, and what the skyline takes of it. Degrees; hours of a day. */
import { horizonElevation_deg } from '../../sky/horizon.ts'
import type { HorizonPoint } from '../../sky/place.ts'
import { sunPosition } from '../../sky/sun-position.ts'

export interface SunAt {
  /** Hours since midnight of the place's standard time. */
  readonly hour: number
  readonly azimuth_deg: number
  readonly elevation_deg: number
}

export interface SunPath {
  /** 0..11 */
  readonly month: number
  readonly points: readonly SunAt[]
}

const DAY = 21
const STEPS_PER_HOUR = 4
const HOUR_MS = 3_600_000

/** Twelve days of `year`; refraction included, as the eye sees it. */
export function sunPaths(
  { latitude_deg, longitude_deg, zone_h }: { latitude_deg: number; longitude_deg: number; zone_h: number },
  year: number,
): SunPath[] {
  return Array.from({ length: 12 }, (_, month) => {
    const midnight_ms = Date.UTC(year, month, DAY) - zone_h * HOUR_MS
    const points = Array.from({ length: 24 * STEPS_PER_HOUR + 1 }, (_, step) => {
      const hour = step / STEPS_PER_HOUR
      const sun = sunPosition(midnight_ms + hour * HOUR_MS, latitude_deg, longitude_deg)
      return { hour, azimuth_deg: sun.azimuth_deg, elevation_deg: sun.refractedElevation_deg }
    })
    return { month, points }
  })
}

export interface SunHours {
  /** Over a free horizon, and over the skyline. */
  readonly free_h: number
  readonly seen_h: number
}

export function sunHours({ points }: SunPath, horizon: readonly HorizonPoint[]): SunHours {
  let free = 0
  let seen = 0
  for (const { azimuth_deg, elevation_deg } of points.slice(1)) {
    if (elevation_deg <= 0) continue
    free++
    if (elevation_deg > horizonElevation_deg(horizon, azimuth_deg)) seen++
  }
  return { free_h: free / STEPS_PER_HOUR, seen_h: seen / STEPS_PER_HOUR }
}
