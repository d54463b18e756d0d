/**
 * Wakes per second in the long run: one over the expected time from wake to wake (renewal reward), with random
 * durations taken through their whole law. Seconds. `D` is the expected duration of a wake, λ the events per second.
 */
import { SAME_MOMENT_s } from './cadence.ts'
import type { Length } from './duration-law.ts'
import { gridRate } from './grid-rate.ts'
import type { Schedule } from './wake.ts'

export interface WakeRate {
  readonly perSecond: number
  /** Scheduled wakes that fall into the work of another wake. */
  readonly missedPerSecond: number
}

type Interval = Exclude<Schedule<number>, { kind: 'times-of-day' }>

/** Any schedule but times of day, whose rate changes from hour to hour; null for events alone. */
export function wakeRate(schedule: Interval | null, law: readonly Length[], events_per_s: number): WakeRate {
  const work_s = mean(law, (d) => d)
  switch (schedule?.kind) {
    case undefined:
      return { perSecond: 1 / (work_s + 1 / events_per_s), missedPerSecond: 0 }
    case 'rest':
      return { perSecond: 1 / (work_s + waited(schedule.rest_s, events_per_s)), missedPerSecond: 0 }
    case 'rate': {
      const { period_s } = schedule
      if (events_per_s > 0) {
        // A tick on which the work ends is still met, so to the grid the work is that moment shorter.
        const short = law.map(({ duration_s, probability }) => ({
          duration_s: Math.max(0, duration_s - SAME_MOMENT_s),
          probability,
        }))
        const { perSecond, alarmsPerSecond } = gridRate(period_s, 1, short, events_per_s)
        return { perSecond, missedPerSecond: 1 / period_s - alarmsPerSecond }
      }
      // A wake uses up every tick of the grid until the first one after its work.
      const ticks = mean(law, (d) => Math.max(1, Math.ceil((d - SAME_MOMENT_s) / period_s)))
      const perSecond = 1 / (ticks * period_s)
      return { perSecond, missedPerSecond: 1 / period_s - perSecond }
    }
    case 'clock-minutes': {
      const { minutes } = schedule
      if (events_per_s > 0)
        return { perSecond: gridRate(60, minutes, law, events_per_s).perSecond, missedPerSecond: 0 }
      // The wake begins on a minute, so the next begins floor(d / 60) + N minutes later.
      const apart = mean(law, (d) => Math.floor((d + SAME_MOMENT_s) / 60) + minutes)
      return { perSecond: 1 / (60 * apart), missedPerSecond: 0 }
    }
  }
}

export function mean(law: readonly Length[], of: (duration_s: number) => number): number {
  return law.reduce((sum, { duration_s, probability }) => sum + probability * of(duration_s), 0)
}

/** Expected wait when an event may cut it short: E[min(wait, T)] = (1 − exp(−λ wait)) / λ, T exponential. */
function waited(wait_s: number, events_per_s: number): number {
  return events_per_s === 0 ? wait_s : -Math.expm1(-events_per_s * wait_s) / events_per_s
}
