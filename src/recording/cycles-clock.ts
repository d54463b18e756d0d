/**
 * Wakes at clock minutes. An alarm "N minutes from now" on a clock with minute resolution fires at the N-th change of the
 * minute (common practice), so wakes keep their place within the minute whatever the work takes.
 */

export interface ClockAlignment {
  /** Whole minutes from wake to wake, as a rule. */
  readonly minutes: number
  /** Where in the minute wakes begin, 0 to below 60 s; null when the recording's start is not known. */
  readonly second_s: number | null
  /** Circular standard deviation of that place (Mardia & Jupp 2000, eq. 2.3.11), in s. */
  readonly deviation_s: number
}

const MINUTE_S = 60
const FEWEST_WAKES = 4
const LARGEST_DEVIATION_S = 1.5

/** Null where wakes are few, or drift or scatter within the minute. `starts_s` from the first sample. */
export function clockAlignment(starts_s: readonly number[], epoch_s: number | null): ClockAlignment | null {
  if (starts_s.length < FEWEST_WAKES) return null
  let cosine = 0
  let sine = 0
  for (const start of starts_s) {
    const angle = (2 * Math.PI * (start + (epoch_s ?? 0))) / MINUTE_S
    cosine += Math.cos(angle) / starts_s.length
    sine += Math.sin(angle) / starts_s.length
  }
  const length = Math.min(Math.hypot(cosine, sine), 1)
  const deviation_s = (MINUTE_S / (2 * Math.PI)) * Math.sqrt(-2 * Math.log(length))
  if (!(deviation_s <= LARGEST_DEVIATION_S)) return null
  const periods = Float64Array.from(starts_s.slice(1), (start, k) => start - starts_s[k]).sort()
  const minutes = Math.round(periods[periods.length >> 1] / MINUTE_S)
  if (minutes < 1) return null
  const place = (MINUTE_S * Math.atan2(sine, cosine)) / (2 * Math.PI)
  return { minutes, second_s: epoch_s === null ? null : (place + MINUTE_S) % MINUTE_S, deviation_s }
}
