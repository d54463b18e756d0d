/**
 * Sunrise, noon and sunset. The sun rises when its upper edge appears on a level sea horizon, with 34' of refraction (the
 * definition of almanacs); real air moves that by a minute or more at high latitudes, and hills move it further.
 */
import { brent } from '../numeric/root.ts'
import { wrap180_deg } from './angle.ts'
import { julianDay } from './julian-day.ts'
import { apparentSun } from './sun-apparent.ts'
import { sunPosition } from './sun-position.ts'

export interface CalendarDate {
  readonly year: number
  /** 1 to 12. */
  readonly month: number
  readonly day: number
}

/** Unix milliseconds (UTC). */
export type SunTimes =
  | {
      readonly kind: 'rises-and-sets'
      readonly rise_ms: number
      readonly transit_ms: number
      readonly set_ms: number
      readonly dayLength_h: number
    }
  | { readonly kind: 'polar-day'; readonly transit_ms: number }
  | { readonly kind: 'polar-night'; readonly transit_ms: number }

const HALF_DAY_ms = 43_200_000
const MS_PER_DEG = 240_000

const REFRACTION_AT_HORIZON_deg = 34 / 60
const SEMI_DIAMETER_AT_1_AU_deg = 959.63 / 3600

/**
 * The sun's times on the solar day whose noon falls on the date in local mean time; rise or set may fall on the neighbouring
 * date in UTC. A day on which the sun only rises or only sets, at either end of the bright season, is a polar day.
 */
export function sunTimes(date: CalendarDate, latitude_deg: number, longitude_deg: number): SunTimes {
  const noon_ms = Date.UTC(date.year, date.month - 1, date.day, 12) - longitude_deg * MS_PER_DEG
  const transit_ms = transitNear(noon_ms, longitude_deg)
  const height = (time_ms: number) => upperEdge_deg(time_ms, latitude_deg, longitude_deg)
  const before_ms = transit_ms - HALF_DAY_ms
  const after_ms = transit_ms + HALF_DAY_ms
  if (height(transit_ms) <= 0) return { kind: 'polar-night', transit_ms }
  if (height(before_ms) >= 0 || height(after_ms) >= 0) return { kind: 'polar-day', transit_ms }
  const rise_ms = brent(height, before_ms, transit_ms, 1)
  const set_ms = brent(height, transit_ms, after_ms, 1)
  return { kind: 'rises-and-sets', rise_ms, transit_ms, set_ms, dayLength_h: (set_ms - rise_ms) / 3_600_000 }
}

/** When the sun crosses the meridian: three corrections by the hour angle, each some thousand times smaller. */
function transitNear(noon_ms: number, longitude_deg: number): number {
  let time_ms = noon_ms
  for (let i = 0; i < 3; i++) {
    const sun = apparentSun(julianDay(time_ms))
    time_ms -= wrap180_deg(sun.siderealTime_deg + longitude_deg - sun.rightAscension_deg) * MS_PER_DEG
  }
  return time_ms
}

/** Degrees by which the upper edge of the sun stands above the sea horizon as it is seen. */
function upperEdge_deg(time_ms: number, latitude_deg: number, longitude_deg: number): number {
  const sun = sunPosition(time_ms, latitude_deg, longitude_deg)
  return sun.elevation_deg + REFRACTION_AT_HORIZON_deg + SEMI_DIAMETER_AT_1_AU_deg / sun.distance_au
}
