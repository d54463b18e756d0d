/**
 * Local times of day as moments of a year, daylight saving honoured. Seconds from 1 January 00:00 of a reference year,
 * in the standard time of the place: the time in which its weather is counted.
 */
import { Temporal } from 'temporal-polyfill'
import type { ClockTime } from './wake.ts'

/** The engine's year has 365 days; of a leap year these are the first 365, without 31 December. */
export const YEAR_s = 365 * 86_400
const DAY_ms = 86_400_000

/** A calendar is slow, and a design's times and its variants' are asked for again and again: the last few are kept. */
const kept = new Map<string, Float64Array>()
const MOST_KEPT = 8

/**
 * The moments in rising order, each once; not to be written to. A time that the spring change leaves out comes later by
 * as much as the clock jumps (02:30 becomes 03:30); of a time that the autumn change brings twice, the first counts.
 *
 * `zone` is an IANA name, `zone_h` the hours of standard time ahead of UTC. Throws RangeError on an unknown zone, an
 * empty list, or a time that no clock shows.
 */
export function timesOfYear(
  times: readonly ClockTime[],
  zone: string,
  zone_h: number,
  year: number,
): Float64Array {
  const key = JSON.stringify([times, zone, zone_h, year])
  const moments = kept.get(key) ?? lookUp(times, zone, zone_h, year)
  kept.delete(key)
  kept.set(key, moments)
  if (kept.size > MOST_KEPT) kept.delete([...kept.keys()][0])
  return moments
}

function lookUp(times: readonly ClockTime[], zone: string, zone_h: number, year: number): Float64Array {
  if (times.length === 0) throw new RangeError('times of day need at least one time')
  const clockTimes_ms = times.map((time) => {
    const { hour, minute, second } = Temporal.PlainTime.from(time, { overflow: 'reject' })
    return (hour * 3600 + minute * 60 + second) * 1000
  })
  const start_ms = Date.UTC(year, 0, 1) - zone_h * 3_600_000
  const spans = spansOf(zone, start_ms - 3 * DAY_ms, start_ms + 370 * DAY_ms)
  const moments = new Set<number>()
  // A local calendar day can begin up to a day before or after the place's standard one: look at both neighbours.
  for (let day = -1; day <= 366; day++)
    for (const time_ms of clockTimes_ms) {
      const at_s = (whenShown(spans, Date.UTC(year, 0, 1 + day) + time_ms) - start_ms) / 1000
      if (at_s >= 0 && at_s < YEAR_s) moments.add(at_s)
    }
  return Float64Array.from(moments).sort()
}

/** A time in which a zone's clock runs through: until when, and how far it is ahead of UTC. */
interface Span {
  readonly until_ms: number
  readonly ahead_ms: number
}

function spansOf(zone: string, from_ms: number, to_ms: number): Span[] {
  const spans: Span[] = []
  let at: Temporal.ZonedDateTime | null =
    Temporal.Instant.fromEpochMilliseconds(from_ms).toZonedDateTimeISO(zone)
  while (at !== null && at.epochMilliseconds < to_ms) {
    const change: Temporal.ZonedDateTime | null = at.getTimeZoneTransition('next')
    spans.push({ until_ms: change?.epochMilliseconds ?? Infinity, ahead_ms: at.offsetNanoseconds / 1e6 })
    at = change
  }
  return spans
}

/** When the clock shows `local_ms`, written as if it were UTC: in the first span that does, or else by the span before. */
function whenShown(spans: readonly Span[], local_ms: number): number {
  const span = spans.findIndex(({ until_ms, ahead_ms }) => local_ms - ahead_ms < until_ms)
  const began_ms = spans[span - 1]?.until_ms ?? -Infinity
  const at_ms = local_ms - spans[span].ahead_ms
  return at_ms >= began_ms ? at_ms : local_ms - spans[span - 1].ahead_ms
}
