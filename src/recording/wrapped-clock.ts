/** Clocks that start anew: times of day at midnight, minutes at the full hour, counters of 32 bits at their end. */

export interface Wrap {
  readonly period_s: number
  /** A step back is taken for the end of a period when it is longer than this; what is shorter is a clock set back. */
  readonly leastStep_s: number
}

/** Only more than half of a period is taken for its end: a clock is set back an hour in autumn. */
export const CLOCK_WRAPS = {
  day: { period_s: 86_400, leastStep_s: 43_200 },
  hour: { period_s: 3600, leastStep_s: 1800 },
} as const

/** Of a counter of 32 bits of milliseconds or shorter: it has to be near its end, since a restarted board counts anew too. */
export function counterWrap(count_s: number): Wrap | null {
  const period_s = 2 ** 32 * count_s
  return count_s > 1e-3 ? null : { period_s, leastStep_s: 0.98 * period_s }
}

/** Counts on over the ends of periods, in the order of the samples. */
export class WrappedClock {
  private last_s = Number.NEGATIVE_INFINITY
  private added_s = 0
  private readonly wrap: Wrap

  constructor(wrap: Wrap) {
    this.wrap = wrap
  }

  /** Changes the first `count` of these times in place. */
  countOn(time_s: Float64Array, count: number): void {
    const { period_s, leastStep_s } = this.wrap
    let { last_s, added_s } = this
    for (let i = 0; i < count; i++) {
      const read_s = time_s[i]
      if (last_s - read_s > leastStep_s) added_s += period_s
      last_s = read_s
      if (added_s > 0) time_s[i] = read_s + added_s
    }
    this.last_s = last_s
    this.added_s = added_s
  }
}
