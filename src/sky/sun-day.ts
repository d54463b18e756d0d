/**
 * The sun from the day of the year alone: good to some tenths of a degree, cheap, and the same every year. Day 1 is
 * 1 January; fractions of a day are allowed; 366 is taken as it comes. `sunPosition` is the accurate way.
 */
import { RAD_PER_DEG } from './angle.ts'

export type DeclinationMethod = 'Spencer' | 'Cooper' | 'FAO-56'

/** Days of the year as an angle (rad), 0 on 1 January. */
export function dayAngle_rad(dayOfYear: number): number {
  if (!(dayOfYear >= 1 && dayOfYear < 367))
    throw new RangeError(`day of the year must be 1 to 366, got ${dayOfYear}`)
  return (2 * Math.PI * (dayOfYear - 1)) / 365 // Duffie & Beckman 1.4.2
}

/**
 * Declination of the sun (degrees, north positive) for a day of the year. Spencer (1971) is good to 0.65°, Cooper
 * (1969) to 1.2°, worst about the equinoxes; `FAO-56` is Eq. 24 of Irrigation and Drainage Paper 56, for its tables only.
 */
export function declination_deg(dayOfYear: number, method: DeclinationMethod = 'Spencer'): number {
  const b = dayAngle_rad(dayOfYear)
  switch (method) {
    case 'Cooper':
      return 23.45 * Math.sin((2 * Math.PI * (284 + dayOfYear)) / 365) // Duffie & Beckman 1.6.1a
    case 'FAO-56':
      return (0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39)) / RAD_PER_DEG // FAO-56 Eq. 24
    case 'Spencer':
      return (
        (0.006918 -
          0.399912 * Math.cos(b) +
          0.070257 * Math.sin(b) -
          0.006758 * Math.cos(2 * b) +
          0.000907 * Math.sin(2 * b) -
          0.002697 * Math.cos(3 * b) +
          0.00148 * Math.sin(3 * b)) /
        RAD_PER_DEG
      ) // Spencer 1971; Duffie & Beckman 1.6.1b
  }
}

/** Apparent less mean solar time (minutes; positive when the sundial is ahead), Spencer 1971; good to 1 min. */
export function equationOfTime_min(dayOfYear: number): number {
  const b = dayAngle_rad(dayOfYear)
  return (
    229.2 *
    (0.000075 +
      0.001868 * Math.cos(b) -
      0.032077 * Math.sin(b) -
      0.014615 * Math.cos(2 * b) -
      0.04089 * Math.sin(2 * b))
  ) // Duffie & Beckman 1.5.3
}
