/** Times of day as expected wakes in each step of the year, with the wakes that the work before covers taken out. */
import { SAME_MOMENT_s } from './cadence.ts'
import type { Length } from './duration-law.ts'
import { YEAR_s } from './local-times.ts'
import { mean, type WakeRate } from './wake-rate.ts'

/**
 * Expected wakes in each step of `step_s`, events included. `times_s` are the moments of the year (`timesOfYear`);
 * `step_s` must divide a day.
 */
export function dayPattern(
  times_s: Float64Array,
  law: readonly Length[],
  events_per_s: number,
  step_s: number,
): { pattern: Float64Array; rate: WakeRate } {
  const done = chancesOfBeingDone(times_s, law)
  const work_s = mean(law, (d) => d)
  const between = withEvents(0, work_s, events_per_s)
  const pattern = new Float64Array(YEAR_s / step_s).fill(between.perSecond * step_s)
  let wakes = YEAR_s * between.perSecond
  let scheduled = 0
  for (let i = 0; i < times_s.length; ) {
    const step = Math.floor(times_s[i] / step_s)
    let chance = 0
    for (; i < times_s.length && Math.floor(times_s[i] / step_s) === step; i++) chance += done[i]
    const merged = withEvents(chance / step_s, work_s, events_per_s)
    pattern[step] = merged.perSecond * step_s
    wakes += (merged.perSecond - between.perSecond) * step_s
    scheduled += merged.done * step_s
  }
  const rate = { perSecond: wakes / YEAR_s, missedPerSecond: (times_s.length - scheduled) / YEAR_s }
  return { pattern, rate }
}

/**
 * A wake is left out when the last one that was done is still at work. At most one wake is at work at a time, so
 * P(done j) = 1 − Σ P(done i) P(duration ≥ t_j − t_i) over all earlier i.
 */
function chancesOfBeingDone(times_s: Float64Array, law: readonly Length[]): Float64Array {
  const longest_s = law.at(-1)?.duration_s ?? 0
  const done = new Float64Array(times_s.length).fill(1)
  for (let j = 1; j < times_s.length; j++)
    for (let i = j - 1; i >= 0 && times_s[j] - times_s[i] <= longest_s + SAME_MOMENT_s; i--) {
      const gap_s = times_s[j] - times_s[i] - SAME_MOMENT_s
      done[j] -= done[i] * mean(law, (d) => Number(d >= gap_s))
    }
  return done
}

/**
 * Scheduled wakes joined by events, both per second. An event begins a wake only in the idle share of the time,
 * e = λ (1 − (s + e) D); a scheduled wake is done where no event's wake is on, s = scheduled / (1 + λ D), which takes
 * the times of day to find the device at any moment alike.
 */
function withEvents(
  scheduled: number,
  work_s: number,
  events_per_s: number,
): { perSecond: number; done: number } {
  const done = scheduled / (1 + events_per_s * work_s)
  const idle = Math.max(0, 1 - done * work_s) / (1 + events_per_s * work_s)
  return { perSecond: done + events_per_s * idle, done }
}
