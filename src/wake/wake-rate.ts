/**
 * Wakes per second in the long run: one over the expected time from wake to wake (renewal reward), with random
 * durations taken through their whole law. Seconds. `D` is the expected duration of a wake, λ the events per second.
 *
 * Exact for every schedule without events, for a rest with events, and for events alone. Where events meet a grid or
 * clock minutes they are taken to find and leave the device at any phase alike (measured: docs/models/wake.md).
 */
import { SAME_MOMENT_s } from './cadence.ts'
import type { Length } from './duration-law.ts'
import type { Schedule } from './wake.ts'

export interface WakeRate {
  readonly perSecond: number
  /** Scheduled wakes that fall into the work of another wake. */
  readonly missedPerSecond: number
}

type Interval = Exclude<Schedule<number>, { kind: 'times-of-day' }>

export function wakeRate(schedule: Interval | null, law: readonly Length[], events_per_s: number): WakeRate {
  const work_s = mean(law, (d) => d)
  switch (schedule?.kind) {
    case undefined:
      return { perSecond: 1 / (work_s + 1 / events_per_s), missedPerSecond: 0 }
    case 'rest':
      return { perSecond: 1 / (work_s + waited(schedule.rest_s, events_per_s)), missedPerSecond: 0 }
    case 'rate': {
      // A wake uses up every tick of the grid until the first one after its work.
      const ticks = mean(law, (d) => Math.max(1, Math.ceil((d - SAME_MOMENT_s) / schedule.period_s)))
      const scheduled = 1 / (ticks * schedule.period_s)
      const { perSecond, done } = withEvents(scheduled, work_s, events_per_s)
      return { perSecond, missedPerSecond: 1 / schedule.period_s - done }
    }
    case 'clock-minutes':
      return { perSecond: minuteRate(schedule.minutes, law, work_s, events_per_s), missedPerSecond: 0 }
  }
}

/**
 * Scheduled wakes joined by events, both per second. An event begins a wake only in the idle share of the time,
 * e = λ (1 − (s + e) D); a scheduled wake is done where no event's wake is on, s = scheduled / (1 + λ D).
 */
export function withEvents(
  scheduled: number,
  work_s: number,
  events_per_s: number,
): { perSecond: number; done: number } {
  const done = scheduled / (1 + events_per_s * work_s)
  const idle = Math.max(0, 1 - done * work_s) / (1 + events_per_s * work_s)
  return { perSecond: done + events_per_s * idle, done }
}

export function mean(law: readonly Length[], of: (duration_s: number) => number): number {
  return law.reduce((sum, { duration_s, probability }) => sum + probability * of(duration_s), 0)
}

/** Expected wait when an event may cut it short: E[min(wait, T)] = (1 − exp(−λ wait)) / λ, T exponential. */
function waited(wait_s: number, events_per_s: number): number {
  return events_per_s === 0 ? wait_s : -Math.expm1(-events_per_s * wait_s) / events_per_s
}

/**
 * An alarm's wake begins on a minute, so its wait is known from its duration; an event's wake ends at any second of a
 * minute. The share of alarms among wakes follows from the two-state chain of which follows which.
 */
function minuteRate(minutes: number, law: readonly Length[], work_s: number, events_per_s: number): number {
  const afterAlarm = mean(law, (d) => {
    const alarm_s = 60 * (Math.floor((d + SAME_MOMENT_s) / 60) + minutes)
    return waited(alarm_s - d, events_per_s)
  })
  if (events_per_s === 0) return 1 / (work_s + afterAlarm)
  // The last minute is cut to a phase that is uniform on 0..60 s: E exp(−λ wait).
  const minute = events_per_s * 60
  const quietAfterEvent = Math.exp(-minute * (minutes - 1)) * (-Math.expm1(-minute) / minute)
  const quietAfterAlarm = 1 - events_per_s * afterAlarm
  const alarms = quietAfterEvent / (1 - quietAfterAlarm + quietAfterEvent)
  const afterEvent = (1 - quietAfterEvent) / events_per_s
  return 1 / (work_s + alarms * afterAlarm + (1 - alarms) * afterEvent)
}
