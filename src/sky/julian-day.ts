/** Time for the astronomer: Julian days from Unix milliseconds, and what clocks on Earth lag behind uniform time. */

const MS_PER_DAY = 86_400_000
const UNIX_EPOCH_JD = 2440587.5
const J2000_JD = 2451545
const DAYS_PER_CENTURY = 36525

/** Julian day of a moment in Unix milliseconds (UTC, taken as UT1; they differ by less than 0.9 s). */
export function julianDay(time_ms: number): number {
  if (!Number.isFinite(time_ms))
    throw new RangeError(`a time must be finite Unix milliseconds, got ${time_ms}`)
  return UNIX_EPOCH_JD + time_ms / MS_PER_DAY
}

/** Julian centuries since J2000.0. */
export function julianCentury(day: number): number {
  return (day - J2000_JD) / DAYS_PER_CENTURY
}

/** Calendar year with its fraction, good to a day. */
function decimalYear(day: number): number {
  return 2000 + (day - J2000_JD) / 365.25
}

/**
 * Terrestrial less universal time in seconds. From 2005 to 2050 the polynomial of Espenak & Meeus (Five Millennium Canon of
 * Solar Eclipses, NASA/TP-2006-214141), otherwise the long-term parabola of Morrison & Stephenson (2004). Off by up to
 * 20 s in 1950-2050; the sun moves 0.0003° in 25 s.
 */
export function deltaT_s(day: number): number {
  const year = decimalYear(day)
  if (year >= 2005 && year < 2050) {
    const t = year - 2000
    return 62.92 + 0.32217 * t + 0.005589 * t ** 2
  }
  return -20 + 32 * ((year - 1820) / 100) ** 2
}
