/** The step of an instrument's reading, where the samples show one. */
import type { Samples } from './states-samples.ts'

const PLACES = 1024
const SAMPLES_AT_A_PLACE = 16
/** Part of a digit by which a multiple may be off: single-precision numbers, and readings scaled by the exporter. */
const OFF = 0.05
/** A step that may be off by more of a digit says nothing. */
const MOST_OFF = 0.25
const FEWEST_STEPS = 3
/** Relative error of a number read from single precision. */
const SINGLE = 2 ** -22

/**
 * The largest step of which all samples looked at are multiples apart, in A; null where values are as good as continuous.
 * Looks at some 16 000 samples spread over the recording.
 */
export function digitOf(samples: Samples): number | null {
  const seen = new Set<number>()
  const last = Math.max(samples.count - SAMPLES_AT_A_PLACE, 0)
  for (let k = 0; k < PLACES; k++) {
    const from = Math.floor((last * k) / (PLACES - 1))
    for (const x of samples.read(from, Math.min(from + SAMPLES_AT_A_PLACE, samples.count)))
      if (Number.isFinite(x)) seen.add(x)
  }
  const values = Float64Array.from(seen).sort()
  let digit = Number.POSITIVE_INFINITY
  let uncertain = 0
  for (let k = 1; k < values.length; k++) {
    const step = values[k] - values[k - 1]
    if (step >= digit || step <= SINGLE * Math.abs(values[k])) continue
    digit = step
    uncertain = (SINGLE * Math.abs(values[k])) / digit
  }
  let checked = 0
  let sum = 0
  let digits = 0
  for (let k = 1; k < values.length; k++) {
    const multiple = (values[k] - values[k - 1]) / digit
    const allowed = OFF + (SINGLE * Math.abs(values[k])) / digit + multiple * uncertain
    if (allowed > MOST_OFF) continue
    const whole = Math.round(multiple)
    if (Math.abs(multiple - whole) > allowed) return null
    checked++
    sum += values[k] - values[k - 1]
    digits += whole
  }
  // The smallest step is the one most shortened by rounding; the mean of all is nearer.
  return checked >= FEWEST_STEPS ? sum / digits : null
}
