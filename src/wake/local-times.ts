/**
 * Local times of day as moments of a year, daylight saving honoured. Seconds from 1 January 00:00 of a reference year,
 * in the standard time of the place: the time in which its weather is counted.
 */
import { Temporal } from 'temporal-polyfill'
import type { ClockTime } from './wake.ts'

/** The engine's year has 365 days; of a leap year these are the first 365, without 31 December. */
export const YEAR_s = 365 * 86_400

/** A calendar is slow, and a design's times and its variants' are asked for again and again: the last few are kept. */
const kept = new Map<string, Float64Array>()
const MOST_KEPT = 8

/**
 * The moments in rising order, each once; not to be written to. A time that the spring change leaves out comes later by as much as the clock
 * jumps (02:30 becomes 03:30); of a time that the autumn change brings twice, the first counts.
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
  const clockTimes = times.map((time) => Temporal.PlainTime.from(time, { overflow: 'reject' }))
  const start_ms = Date.UTC(year, 0, 1) - zone_h * 3_600_000
  const moments = new Set<number>()
  // A local calendar day can begin up to a day before or after the place's standard one: look at both neighbours.
  let date = Temporal.PlainDate.from({ year, month: 1, day: 1 }).subtract({ days: 1 })
  for (let day = -1; day <= 366; day++, date = date.add({ days: 1 }))
    for (const ms of momentsOfDay(date, clockTimes, zone)) {
      const at_s = (ms - start_ms) / 1000
      if (at_s >= 0 && at_s < YEAR_s) moments.add(at_s)
    }
  return Float64Array.from(moments).sort()
}

function momentsOfDay(
  date: Temporal.PlainDate,
  times: readonly Temporal.PlainTime[],
  zone: string,
): number[] {
  const midnight = date.toZonedDateTime({ timeZone: zone })
  // On all but two days of the year the clock runs through, which spares a look into the zone for every time.
  if (midnight.hoursInDay === 24)
    return times.map(
      ({ hour, minute, second }) => midnight.epochMilliseconds + (hour * 3600 + minute * 60 + second) * 1000,
    )
  return times.map((time) => date.toZonedDateTime({ timeZone: zone, plainTime: time }).epochMilliseconds)
}
