/**
 * Calendar times as logs write them: ISO 8601 with a space or a T, with or without zone; dates with slashes or points,
 * year, day or month first; clocks of 24 or 12 hours; minutes and seconds; and days and clocks in columns of their own.
 */

const decoder = new TextDecoder('latin1')
const ISO =
  /^(\d{4})-(\d\d)-(\d\d)[T _](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d{1,12}))?)?\s*(Z|[+-]\d\d:?(?:\d\d)?)?$/i
const CLOCK = /^(\d{1,2}):(\d\d):(\d\d)(?:[.,](\d{1,12}))?$/
const HALF_DAY_CLOCK = /^(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,](\d{1,12}))?)?\s*([ap])\.?m\.?$/i
const SHORT_CLOCK = /^(\d{1,2}):(\d\d)$/
const MINUTES = /^(\d{1,3}):(\d\d)[.,](\d{1,12})$/
const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/
const YEAR_LAST = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d\d)$/
const DATE_AND_CLOCK = /^(\S+?)(?:[T_]|,?\s+)(\d{1,2}:.*)$/i

export interface CalendarTime {
  /** A date with a clock time; a time of day; minutes and seconds of an hour; or a date alone. */
  readonly kind: 'moment' | 'clock' | 'minutes' | 'day'
  /** Whole seconds since 1970-01-01T00:00Z (since midnight for a time of day). */
  readonly seconds: number
  /** Fraction of a second, kept apart so that it keeps its digits. */
  readonly fraction: number
  readonly zoned: boolean
  readonly decimals: number
}

/** The calendar time written in `text`, or null. Without zone it is taken as UTC, with `zoned` false. */
export function parseCalendar(text: string, monthFirst: boolean): CalendarTime | null {
  const written = text.trim()
  return (
    parseIso(written) ??
    parseClock(written) ??
    parseMinutes(written) ??
    parseDay(written, monthFirst) ??
    parseDateAndClock(written, monthFirst)
  )
}

function parseIso(text: string): CalendarTime | null {
  const match = ISO.exec(text)
  if (!match) return null
  const [, year, month, day, hour, minute, second = '0', fraction = '', zone] = match
  const midnight = midnightOf(Number(year), Number(month), Number(day))
  if (midnight === null || Number(hour) > 24 || Number(minute) >= 60 || Number(second) > 60) return null
  const seconds = midnight + Number(hour) * 3600 + Number(minute) * 60 + Number(second) - offset(zone)
  return timeOf('moment', seconds, fraction, zone !== undefined)
}

/** A time of day such as `12:04:59.250` or `1:04:59 PM`, or null. */
function parseClock(text: string): CalendarTime | null {
  const match = CLOCK.exec(text)
  if (match) {
    const [, hour, minute, second, fraction] = match
    return timeOf('clock', Number(hour) * 3600 + Number(minute) * 60 + Number(second), fraction)
  }
  const half = HALF_DAY_CLOCK.exec(text)
  if (!half || Number(half[1]) < 1 || Number(half[1]) > 12) return null
  const [, hour, minute, second = '0', fraction, letter] = half
  // Twelve comes first on such a clock: 12:30 AM is half an hour after midnight.
  const hours = (Number(hour) % 12) + (letter.toLowerCase() === 'p' ? 12 : 0)
  return timeOf('clock', hours * 3600 + Number(minute) * 60 + Number(second), fraction)
}

/** Minutes and seconds with a fraction, which tells them from hours and minutes: `04:59.250`. */
function parseMinutes(text: string): CalendarTime | null {
  const match = MINUTES.exec(text)
  if (!match || Number(match[2]) >= 60) return null
  return timeOf('minutes', Number(match[1]) * 60 + Number(match[2]), match[3])
}

function parseDay(text: string, monthFirst: boolean): CalendarTime | null {
  const first = YEAR_FIRST.exec(text)
  if (first) return dayOf(Number(first[1]), Number(first[3]), Number(first[4]))
  const last = YEAR_LAST.exec(text)
  if (!last) return null
  const [, a, , b, year] = last
  const [month, day] = monthFirst ? [a, b] : [b, a]
  return dayOf(Number(year) + (year.length === 2 ? 2000 : 0), Number(month), Number(day))
}

function parseDateAndClock(text: string, monthFirst: boolean): CalendarTime | null {
  const match = DATE_AND_CLOCK.exec(text)
  if (!match) return null
  const day = parseDay(match[1], monthFirst)
  if (day === null) return null
  const clock = parseClock(match[2]) ?? parseShortClock(match[2])
  return clock && { ...clock, kind: 'moment', seconds: day.seconds + clock.seconds }
}

function parseShortClock(text: string): CalendarTime | null {
  const match = SHORT_CLOCK.exec(text)
  return match && timeOf('clock', Number(match[1]) * 3600 + Number(match[2]) * 60)
}

function dayOf(year: number, month: number, day: number): CalendarTime | null {
  const midnight = midnightOf(year, month, day)
  return midnight === null ? null : timeOf('day', midnight)
}

function timeOf(kind: CalendarTime['kind'], seconds: number, fraction = '', zoned = false): CalendarTime {
  return { kind, seconds, fraction: Number(`0.${fraction || '0'}`), zoned, decimals: fraction.length }
}

/** Seconds since 1970 of the start of a day in UTC; null when there is no such day. */
function midnightOf(year: number, month: number, day: number): number | null {
  const midnight = new Date(Date.UTC(year, month - 1, day))
  return midnight.getUTCMonth() === month - 1 && midnight.getUTCDate() === day
    ? midnight.getTime() / 1000
    : null
}

/** A time from bytes, in seconds after `origin_s`; NaN when it is none, or a day where a clock is wanted or the reverse. */
export function calendarSeconds(
  bytes: Uint8Array,
  from: number,
  to: number,
  origin_s: number,
  monthFirst: boolean,
  wantsDay: boolean,
): number {
  const time = parseCalendar(decoder.decode(bytes.subarray(from, to)), monthFirst)
  if (time === null || (time.kind === 'day') !== wantsDay) return Number.NaN
  return time.seconds - origin_s + time.fraction
}

/**
 * Whether dates written `5/6/2026` have the month first: told by a part above twelve, else by AM or PM, else by the mark
 * between them: slashes for month first, points and dashes for day first (common practice). Null when no date is written so.
 */
export function monthComesFirst(texts: readonly string[]): { monthFirst: boolean; isSure: boolean } | null {
  const parts = texts.flatMap((text) => {
    const match = YEAR_LAST.exec(text.trim().split(/,?\s|[T_]/)[0])
    return match ? [{ first: Number(match[1]), second: Number(match[3]), mark: match[2] }] : []
  })
  if (parts.length === 0) return null
  if (parts.some(({ first }) => first > 12)) return { monthFirst: false, isSure: true }
  if (parts.some(({ second }) => second > 12)) return { monthFirst: true, isSure: true }
  const halfDays = texts.some((text) => /\d\s*[ap]\.?m\.?$/i.test(text.trim()))
  return { monthFirst: halfDays || parts[0].mark === '/', isSure: false }
}

function offset(zone: string | undefined): number {
  if (zone === undefined || zone === 'Z' || zone === 'z') return 0
  const digits = zone.slice(1).replace(':', '').padEnd(4, '0')
  const seconds = Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2, 4)) * 60
  return zone.startsWith('-') ? -seconds : seconds
}
