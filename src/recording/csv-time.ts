/** Calendar times as logs write them: ISO 8601 with a space or a T, with or without zone, and plain times of day. */

const decoder = new TextDecoder('latin1')
const ISO =
  /^(\d{4})-(\d\d)-(\d\d)[T _](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d{1,12}))?)?\s*(Z|[+-]\d\d:?(?:\d\d)?)?$/i
const CLOCK = /^(\d{1,2}):(\d\d):(\d\d)(?:[.,](\d{1,12}))?$/

export interface CalendarTime {
  /** Whole seconds since 1970-01-01T00:00Z (since midnight for a time of day). */
  readonly seconds: number
  /** Fraction of a second, kept apart so that it keeps its digits. */
  readonly fraction: number
  readonly zoned: boolean
  readonly decimals: number
}

/** The calendar time written in `text`, or null. A time without zone is taken as UTC, with `zoned` false. */
export function parseIsoTime(text: string): CalendarTime | null {
  const match = ISO.exec(text.trim())
  if (!match) return null
  const [, year, month, day, hour, minute, second = '0', fraction = '', zone] = match
  const [y, m, d] = [Number(year), Number(month), Number(day)]
  const midnight = Date.UTC(y, m - 1, d) / 1000
  const real = new Date(midnight * 1000)
  const valid =
    real.getUTCMonth() === m - 1 && real.getUTCDate() === d && Number(hour) <= 24 && Number(minute) < 60
  if (!valid || Number(second) > 60) return null
  const seconds = midnight + Number(hour) * 3600 + Number(minute) * 60 + Number(second) - offset(zone)
  return {
    seconds,
    fraction: Number(`0.${fraction || '0'}`),
    zoned: zone !== undefined,
    decimals: fraction.length,
  }
}

/** A time of day such as `12:04:59.250`, or null. */
export function parseClockTime(text: string): CalendarTime | null {
  const match = CLOCK.exec(text.trim())
  if (!match) return null
  const [, hour, minute, second, fraction = ''] = match
  const seconds = Number(hour) * 3600 + Number(minute) * 60 + Number(second)
  return { seconds, fraction: Number(`0.${fraction || '0'}`), zoned: false, decimals: fraction.length }
}

/** Either of the two from bytes, in seconds after `origin_s`; NaN when it is neither. */
export function calendarSeconds(bytes: Uint8Array, from: number, to: number, origin_s: number): number {
  const text = decoder.decode(bytes.subarray(from, to))
  const time = parseIsoTime(text) ?? parseClockTime(text)
  return time === null ? Number.NaN : time.seconds - origin_s + time.fraction
}

function offset(zone: string | undefined): number {
  if (zone === undefined || zone === 'Z' || zone === 'z') return 0
  const digits = zone.slice(1).replace(':', '').padEnd(4, '0')
  const seconds = Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2, 4)) * 60
  return zone.startsWith('-') ? -seconds : seconds
}
