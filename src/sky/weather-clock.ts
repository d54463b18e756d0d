/** Does the light of a file come at the sun's time? Catches a wrong zone, a wrong sign of longitude, a shifted stamp. */
import { RAD_PER_DEG, wrap180_deg } from './angle.ts'

/** Mean time of day of `hourly` values, as an angle on the 24-hour circle (rad); null where there are none. */
function meanAngle_rad(hourly: ArrayLike<number>): number | null {
  let x = 0
  let y = 0
  for (let i = 0; i < hourly.length; i++) {
    const angle = (2 * Math.PI * ((i % 24) + 0.5)) / 24
    x += hourly[i] * Math.cos(angle)
    y += hourly[i] * Math.sin(angle)
  }
  return x === 0 && y === 0 ? null : Math.atan2(y, x)
}

/** Hours by which measured light comes later than the light above the air, −12..12; null where there is none. */
export function clockShift_h(measured: ArrayLike<number>, aboveTheAir: ArrayLike<number>): number | null {
  const actual = meanAngle_rad(measured)
  const expected = meanAngle_rad(aboveTheAir)
  if (actual === null || expected === null) return null
  return wrap180_deg((actual - expected) / RAD_PER_DEG) / 15
}
