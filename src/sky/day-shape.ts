/**
 * How a day's light and warmth spread over its hours at one place, as tables over the 365-day year in local standard
 * time. Global light after Collares-Pereira & Rabl (1979), diffuse after Liu & Jordan (1960), both scaled so that each
 * day's shares sum to exactly one; temperature by two half cosines from sunrise to mid-afternoon to the next sunrise (the
 * form of de Wit, 1978, from memory).
 */
import { wrap180_deg } from './angle.ts'
import { DAYS } from './calendar.ts'
import { diffuseShare, hourlyShare } from './hourly-share.ts'
import { type SkyLight, skyLight } from './sky-light.ts'
import { sunsetHourAngle_deg } from './sun-angles.ts'
import { declination_deg } from './sun-day.ts'

export interface Site {
  readonly latitude_deg: number
  readonly longitude_deg: number
  readonly zone_h: number
}

export interface DayShapes {
  readonly stepsPerHour: number
  readonly sky: SkyLight
  /** Share of the day's global and diffuse light in each interval; all zero on a day without sun. */
  readonly globalShare: Float64Array
  readonly diffuseShare: Float64Array
  /** Temperature less the day's mean, in daily ranges: −0.5 at its coldest, 0.5 at its warmest. */
  readonly warmth: Float64Array
  readonly sunsetHourAngle_deg: Float64Array
}

/** The warmest solar time of day: mid-afternoon, common practice. */
const WARMEST_H = 15
/** Where the sun hardly sets or rises, the coldest time stays between these solar times. */
const COLDEST_BOUNDS_H = [3, 10] as const

function warmthAt(solarTime_h: number, coldest_h: number): number {
  const since = (((solarTime_h - coldest_h) % 24) + 24) % 24
  const rise = WARMEST_H - coldest_h
  return since < rise
    ? -0.5 * Math.cos((Math.PI * since) / rise)
    : 0.5 * Math.cos((Math.PI * (since - rise)) / (24 - rise))
}

/** Collares-Pereira & Rabl over Liu & Jordan, in the middle of the part of an interval in which the sun is up. */
function globalOverDiffuse(middle_deg: number, width_deg: number, sunset_deg: number): number {
  const from = Math.max(middle_deg - width_deg / 2, -sunset_deg)
  const to = Math.min(middle_deg + width_deg / 2, sunset_deg)
  const lit_deg = to > from ? (from + to) / 2 : 0
  return hourlyShare(sunset_deg, lit_deg) / diffuseShare(sunset_deg, lit_deg)
}

function scaleToOne(shares: Float64Array): void {
  const sum = shares.reduce((total, share) => total + share, 0)
  if (sum > 0) for (let i = 0; i < shares.length; i++) shares[i] /= sum
}

/** No day of the daily laws is clearer (their bounds reach 0.845 and 0.864, the latter in one day of thousands). */
const CLEAREST = 0.864

/**
 * Under the midnight sun the global law, made for days that end, peaks too high: at CLEAREST an hour could outshine the
 * light above the air. The shares are then drawn towards those of the light above the air until it cannot.
 */
function limitPeak(globalShare: Float64Array, aboveShare: Float64Array): void {
  let peak = 1
  for (let i = 0; i < globalShare.length; i++)
    if (aboveShare[i] > 0) peak = Math.max(peak, globalShare[i] / aboveShare[i])
  const keep = Math.min(1, (1 / CLEAREST - 1) / (peak - 1))
  if (keep < 1)
    for (let i = 0; i < globalShare.length; i++)
      globalShare[i] = aboveShare[i] + keep * (globalShare[i] - aboveShare[i])
}

export function dayShapes(site: Site, stepsPerHour: number): DayShapes {
  const steps = 24 * stepsPerHour
  const width_deg = 15 / stepsPerHour
  const sky = skyLight(site.latitude_deg, site.longitude_deg, site.zone_h, stepsPerHour)
  const shapes = {
    stepsPerHour,
    sky,
    globalShare: new Float64Array(DAYS * steps),
    diffuseShare: Float64Array.from(sky.horizontal_W_m2), // Liu & Jordan: as the light above the air
    warmth: new Float64Array(DAYS * steps),
    sunsetHourAngle_deg: new Float64Array(DAYS),
  }
  for (let day = 0; day < DAYS; day++) {
    const sunset_deg = sunsetHourAngle_deg(site.latitude_deg, declination_deg(day + 1))
    shapes.sunsetHourAngle_deg[day] = sunset_deg
    const coldest_h = Math.min(Math.max(12 - sunset_deg / 15, COLDEST_BOUNDS_H[0]), COLDEST_BOUNDS_H[1])
    for (let i = day * steps; i < (day + 1) * steps; i++) {
      const middle_deg = wrap180_deg(sky.midnightHourAngle_deg[day] + (i - day * steps + 0.5) * width_deg)
      shapes.warmth[i] = warmthAt(12 + middle_deg / 15, coldest_h)
      if (shapes.diffuseShare[i] > 0)
        shapes.globalShare[i] = shapes.diffuseShare[i] * globalOverDiffuse(middle_deg, width_deg, sunset_deg)
    }
    const global = shapes.globalShare.subarray(day * steps, (day + 1) * steps)
    const diffuse = shapes.diffuseShare.subarray(day * steps, (day + 1) * steps)
    scaleToOne(global)
    scaleToOne(diffuse)
    limitPeak(global, diffuse)
  }
  return shapes
}
