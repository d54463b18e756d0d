/**
 * When the next wake is, event by event. Seconds from 1 January 00:00 of the reference year in the place's standard
 * time; a real-time clock's minutes and a fixed grid both count from there, and local times repeat from year to year.
 */
import type { Stream } from '../numeric/random.ts'
import { YEAR_s } from './local-times.ts'
import type { Cadence, Schedule, ThriftRow } from './wake.ts'

/** Work that ends this close to a tick counts as ending on it: rounding is not an overrun. */
export const SAME_MOMENT_s = 1e-6

export interface NextWake {
  readonly at_s: number
  readonly cause: 'schedule' | 'event'
  /** Scheduled wakes that fell into the work before and are not made up for. */
  readonly missed: number
}

export interface Work {
  readonly start_s: number
  readonly end_s: number
}

/**
 * The wake after `work`, the work of the wake before. `row` is the thrift row that holds (see `thriftRow`), `times_s`
 * what `timesOfYear` gives for times of day and null for any other schedule. Random events are a Poisson process: one
 * that comes during the work is served by it, one that comes in the rest wakes at once. `stream` is drawn from once where
 * there are events. Null where nothing ever wakes the device: neither schedule nor events.
 *
 * After a wake by an event, a fixed rest and an alarm in minutes count anew from the end of its work; a fixed grid and
 * times of day stand still.
 */
export function nextWake(
  cadence: Cadence<number>,
  row: number,
  work: Work,
  times_s: Float64Array | null,
  stream: Stream,
): NextWake | null {
  const schedule = scheduleOf(cadence, row)
  const planned = schedule === null ? null : nextScheduled(schedule, work, times_s)
  const perSecond = (cadence.events?.perDay ?? 0) / 86_400
  if (perSecond > 0) {
    // The exponential law has no memory, so the wait may be drawn anew at the end of each work.
    const event_s = work.end_s - Math.log(stream.uniform()) / perSecond
    if (planned === null || event_s < planned.at_s)
      return { at_s: event_s, cause: 'event', missed: planned?.missed ?? 0 }
  }
  return planned === null ? null : { ...planned, cause: 'schedule' }
}

/** When a device that is switched on at a time of its own choosing first works: its clock may stand anywhere in a minute. */
export function firstWake_s(cadence: Cadence<number>, stream: Stream): number {
  return cadence.schedule?.kind === 'clock-minutes' ? 60 * stream.uniform() : 0
}

/** Sums of volts carry binary noise, less than this: 3.3 V + 50 mV come out a little below 3.35 V. */
export const NOISE_V = 1e-9

/**
 * The thrift row that holds at battery voltage `voltage_V`, measured under the rest load: 0 is the schedule's own interval,
 * k is `thrift[k - 1]`. A row is entered below its voltage, and left only above that voltage plus its hysteresis; a voltage
 * within `NOISE_V` of one of the two is neither.
 */
export function thriftRow(thrift: readonly ThriftRow<number>[], voltage_V: number, row: number): number {
  let now = row
  while (now < thrift.length && voltage_V < thrift[now].below_V - NOISE_V) now++
  while (now > 0 && voltage_V > thrift[now - 1].below_V + thrift[now - 1].hysteresis_V + NOISE_V) now--
  return now
}

/**
 * The schedule with the interval that thrift row `row` gives it. An alarm in minutes takes the nearest whole minute, at
 * least one. Throws RangeError where there is no interval to replace, and on a row that is not there.
 */
export function scheduleOf(cadence: Cadence<number>, row: number): Schedule<number> | null {
  const { schedule, thrift } = cadence
  if (row === 0) return schedule
  const interval_s = thrift[row - 1]?.interval_s
  if (interval_s === undefined)
    throw new RangeError(`the thrift table has rows 0..${thrift.length}, not ${row}`)
  switch (schedule?.kind) {
    case 'rest':
      return { kind: 'rest', rest_s: interval_s }
    case 'rate':
      return { kind: 'rate', period_s: interval_s }
    case 'clock-minutes':
      return { kind: 'clock-minutes', minutes: Math.max(1, Math.round(interval_s / 60)) }
    case 'times-of-day':
    case undefined:
      throw new RangeError(
        'a thrift table needs a schedule with an interval: a rest, a rate or clock minutes, not times of day or events alone',
      )
  }
}

function nextScheduled(
  schedule: Schedule<number>,
  { start_s, end_s }: Work,
  times_s: Float64Array | null,
): { at_s: number; missed: number } {
  switch (schedule.kind) {
    case 'rest':
      return { at_s: end_s + schedule.rest_s, missed: 0 }
    case 'rate': {
      const { period_s } = schedule
      const after = Math.floor((start_s + SAME_MOMENT_s) / period_s) + 1
      const next = Math.max(after, Math.ceil((end_s - SAME_MOMENT_s) / period_s))
      return { at_s: next * period_s, missed: next - after }
    }
    case 'clock-minutes':
      return { at_s: 60 * (Math.floor((end_s + SAME_MOMENT_s) / 60) + schedule.minutes), missed: 0 }
    case 'times-of-day': {
      const moments = knownTimes(times_s)
      const before = countUpTo(moments, start_s)
      const next = countUpTo(moments, end_s)
      const year = Math.floor(next / moments.length)
      return { at_s: year * YEAR_s + moments[next - year * moments.length], missed: next - before }
    }
  }
}

/** The moments of the year, once it is sure that they were given. */
export function knownTimes(times_s: Float64Array | null): Float64Array {
  if (times_s === null || times_s.length === 0)
    throw new RangeError('times of day need their moments of the year: pass what timesOfYear gives')
  return times_s
}

/** How many of the yearly repeating moments lie at or before `at_s`. */
function countUpTo(times_s: Float64Array, at_s: number): number {
  const year = Math.floor(at_s / YEAR_s)
  const within_s = at_s - year * YEAR_s + SAME_MOMENT_s
  let low = 0
  let high = times_s.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (times_s[middle] <= within_s) low = middle + 1
    else high = middle
  }
  return year * times_s.length + low
}
