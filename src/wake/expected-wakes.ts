/** How many wakes a step of the engine's year brings on average, for an engine that does not follow single wakes. */
import { knownTimes, scheduleOf } from './cadence.ts'
import { dayPattern } from './day-pattern.ts'
import { durationLaw } from './duration-law.ts'
import { momentsOf } from './moments.ts'
import type { Wake } from './wake.ts'
import { wakeRate } from './wake-rate.ts'

const DAY_s = 86_400

export interface ExpectedWakes {
  /** As in the thrift table; Infinity and 0 for the schedule's own interval. */
  readonly below_V: number
  readonly hysteresis_V: number
  /** Mean over the year. */
  readonly wakesPerStep: number
  /** Where wakes follow the time of day: expected wakes in each step of the year; otherwise null. */
  readonly pattern: Float64Array | null
  readonly wakesPerDay: number
  /** Scheduled wakes that are not done because the device was still at work. */
  readonly missedPerDay: number
  readonly reportsPerDay: number
}

/**
 * The schedule's own interval first, then one entry for each row of the thrift table. `times_s` is what `timesOfYear`
 * gives for times of day and null for any other schedule; `step_s` must divide a day. Throws RangeError on impossible
 * steps, and on a device that would wake without end in no time.
 */
export function expectedWakes(
  wake: Wake<number>,
  times_s: Float64Array | null,
  step_s: number,
): ExpectedWakes[] {
  if (!(step_s > 0 && Number.isInteger(DAY_s / step_s)))
    throw new RangeError(`a step must divide a day, as 3600 s or 600 s do, not ${step_s} s`)
  const { cadence } = wake
  const law = durationLaw(wake)
  const { reports } = momentsOf(wake)
  const events_per_s = (cadence.events?.perDay ?? 0) / DAY_s

  return [null, ...cadence.thrift].map((thrift, row) => {
    const schedule = scheduleOf(cadence, row)
    const { pattern, rate } =
      schedule?.kind === 'times-of-day'
        ? dayPattern(knownTimes(times_s), law, events_per_s, step_s)
        : { pattern: null, rate: wakeRate(schedule, law, events_per_s) }
    if (!Number.isFinite(rate.perSecond))
      throw new RangeError(
        'neither work nor rest takes any time: give a step a duration, or the device a rest',
      )
    return {
      below_V: thrift?.below_V ?? Infinity,
      hysteresis_V: thrift?.hysteresis_V ?? 0,
      wakesPerStep: rate.perSecond * step_s,
      pattern,
      wakesPerDay: rate.perSecond * DAY_s,
      missedPerDay: rate.missedPerSecond * DAY_s,
      reportsPerDay: rate.perSecond * DAY_s * reports,
    }
  })
}
