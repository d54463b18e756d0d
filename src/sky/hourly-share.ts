/**
 * How a day's light on the horizontal spreads over its hours. Angles in degrees: sunset hour angle 0 to 180, hour angle of
 * the middle of the hour. The global shares of a day sum to 1 within 1 % for 8 to 20 h of daylight, 5 % beyond: normalise.
 */
import { RAD_PER_DEG } from './angle.ts'

/** Global light: hour over day, Collares-Pereira & Rabl, Solar Energy 22 (1979) 155-164. 0 while the sun is down. */
export function hourlyShare(sunsetHourAngle_deg: number, hourAngle_deg: number): number {
  const offset = (sunsetHourAngle_deg - 60) * RAD_PER_DEG
  const a = 0.409 + 0.5016 * Math.sin(offset) // Duffie & Beckman 2.13.2b
  const b = 0.6609 - 0.4767 * Math.sin(offset) // Duffie & Beckman 2.13.2c
  const peak = a + b * Math.cos(hourAngle_deg * RAD_PER_DEG)
  return Math.max(peak, 0) * diffuseShare(sunsetHourAngle_deg, hourAngle_deg) // Duffie & Beckman 2.13.2a
}

/** Diffuse light: hour over day, Liu & Jordan, Solar Energy 4(3) (1960) 1-19. 0 while the sun is down. */
export function diffuseShare(sunsetHourAngle_deg: number, hourAngle_deg: number): number {
  if (Math.abs(hourAngle_deg) >= sunsetHourAngle_deg) return 0
  const sunset = sunsetHourAngle_deg * RAD_PER_DEG
  const height = Math.cos(hourAngle_deg * RAD_PER_DEG) - Math.cos(sunset)
  return ((Math.PI / 24) * height) / (Math.sin(sunset) - sunset * Math.cos(sunset)) // Duffie & Beckman 2.13.4
}
