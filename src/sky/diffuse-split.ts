/**
 * Which share of the light on the horizontal is diffuse, by clearness index: Erbs, Klein & Duffie, Solar Energy 28 (1982)
 * 293-302, as in Duffie & Beckman sections 2.10 and 2.11. Clearness below 0 counts as 0.
 */

/** Diffuse share of an hour's light; clearness index `kt` of the hour. */
export function erbsHourly(kt: number): number {
  if (kt <= 0) return 1
  if (kt <= 0.22) return 1 - 0.09 * kt // Duffie & Beckman 2.10.1
  if (kt > 0.8) return 0.165
  return 0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)))
}

/** Sunset hour angle that parts winter from the other seasons. */
const WINTER_BELOW_deg = 81.4

/** Diffuse share of a day's light; clearness index of the day and sunset hour angle in degrees. */
export function erbsDaily(clearness: number, sunsetHourAngle_deg: number): number {
  const k = Math.max(clearness, 0)
  if (sunsetHourAngle_deg <= WINTER_BELOW_deg)
    return k < 0.715 ? 1 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) : 0.143 // D & B 2.11.1a
  return k < 0.722 ? 1 + k * (0.2832 + k * (-2.5557 + k * 0.8448)) : 0.175 // D & B 2.11.1b
}
