/**
 * Light above the air over one place for every interval of the 365-day year, counted in local standard time: what
 * weather files and the generator measure their light against.
 */
import { wrap180_deg } from './angle.ts'
import { DAYS } from './calendar.ts'
import { extraterrestrialNormal_W_m2, hourlyExtraterrestrial_J_m2 } from './extraterrestrial.ts'
import { sunsetHourAngle_deg } from './sun-angles.ts'
import { declination_deg, equationOfTime_min } from './sun-day.ts'

export interface SkyLight {
  /** Mean over each interval on the horizontal. */
  readonly horizontal_W_m2: Float64Array
  /** Mean cosine of the sun's zenith angle over the part of each interval in which it is up; 0 where it is down. */
  readonly cosZenith: Float64Array
  /** Hour angle at the beginning of the first interval of each day, degrees, may lie beyond ±180. */
  readonly midnightHourAngle_deg: Float64Array
}

/** Intervals are 1/`stepsPerHour` of an hour; longitude east positive, zone in hours ahead of UTC. */
export function skyLight(
  latitude_deg: number,
  longitude_deg: number,
  zone_h: number,
  stepsPerHour: number,
): SkyLight {
  const steps = 24 * stepsPerHour
  const width_deg = 15 / stepsPerHour
  const seconds = 3600 / stepsPerHour
  const light = {
    horizontal_W_m2: new Float64Array(DAYS * steps),
    cosZenith: new Float64Array(DAYS * steps),
    midnightHourAngle_deg: new Float64Array(DAYS),
  }
  for (let day = 0; day < DAYS; day++) {
    const declination = declination_deg(day + 1)
    const normal_W_m2 = extraterrestrialNormal_W_m2(day + 1)
    const sunset = sunsetHourAngle_deg(latitude_deg, declination)
    const midnight = -180 + longitude_deg - 15 * zone_h + equationOfTime_min(day + 1) / 4 // Duffie & Beckman 1.5.2
    light.midnightHourAngle_deg[day] = midnight
    for (let step = 0; step < steps; step++) {
      const from = wrap180_deg(midnight + step * width_deg)
      let energy_J_m2 = 0
      let lit_deg = 0
      // Solar midnight cuts an interval in two; the second piece begins the next turn.
      for (const [start, end] of [
        [from, Math.min(from + width_deg, 180)],
        [-180, from + width_deg - 360],
      ]) {
        if (!(end > start)) continue
        energy_J_m2 += hourlyExtraterrestrial_J_m2(latitude_deg, declination, start, end, normal_W_m2)
        lit_deg += Math.max(Math.min(end, sunset) - Math.max(start, -sunset), 0)
      }
      const i = day * steps + step
      light.horizontal_W_m2[i] = energy_J_m2 / seconds
      if (energy_J_m2 > 0)
        light.cosZenith[i] = light.horizontal_W_m2[i] / (normal_W_m2 * (lit_deg / width_deg))
    }
  }
  return light
}
