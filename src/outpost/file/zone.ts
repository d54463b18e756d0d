/** Time zones as a file names them: an IANA name, or hours ahead of UTC. */
import { Temporal } from 'temporal-polyfill'

/** Any year does: the rule wanted is today's standard time. */
const REFERENCE_YEAR = 2025
const NANOSECONDS_PER_HOUR = 3.6e12

/** The zone as an identifier that a calendar understands, null where it is none: `UTC+1` becomes `+01:00`. */
export function namedZone(text: string): string | null {
  const offset = /^(?:UTC|GMT)?\s*([+\-−])(\d{1,2})(?::?([0-5]\d))?$/i.exec(text.trim())
  if (offset !== null) {
    const [, sign, hours, minutes] = offset
    return Number(hours) > 14
      ? null
      : `${sign === '+' ? '+' : '-'}${hours.padStart(2, '0')}:${minutes ?? '00'}`
  }
  try {
    standardOffset_h(text.trim())
    return text.trim()
  } catch {
    return null
  }
}

/** A calendar takes milliseconds over a zone, and a file is read at every stroke of a key. */
const known = new Map<string, number>()

/**
 * Hours ahead of UTC without daylight saving: the least offset of the year, in either hemisphere. Throws RangeError on
 * an unknown zone.
 */
export function standardOffset_h(zone: string): number {
  const before = known.get(zone)
  if (before !== undefined) return before
  const offsets = [1, 4, 7, 10].map((month) => {
    const day = Temporal.ZonedDateTime.from({ year: REFERENCE_YEAR, month, day: 1, timeZone: zone })
    return day.offsetNanoseconds / NANOSECONDS_PER_HOUR
  })
  const standard_h = Math.min(...offsets)
  known.set(zone, standard_h)
  return standard_h
}
