/** All that can come of one step whose turn it is, each with its probability. Tries fail independently. */
import { type Segment, segmentsOf } from './segments.ts'
import type { Step, Wake } from './wake.ts'

export interface Outcome {
  readonly probability: number
  readonly segments: readonly Segment[]
  readonly charge_C: number
  readonly duration_s: number
  /** False where every try failed: the wake ends there, without the steps that would follow. */
  readonly goesOn: boolean
  readonly reports: number
}

/** Each outcome holds a segment for every try before it, so that their number grows with the square of the tries. */
export const MOST_RETRIES = 30

/**
 * The outcomes of `step`, those of probability 0 left out; their probabilities add up to 1. At most
 * `retries.times` + 3 of them. Throws RangeError where a probability is outside 0..1, a duration is negative, or there
 * are more than `MOST_RETRIES` further tries.
 */
export function outcomesOf(step: Step<number>, rest_A: number): Outcome[] {
  checkStep(step)
  const { chance, retries } = step
  const fails = retries === null ? 0 : retries.probability
  const tries = retries === null ? 1 : 1 + retries.times

  const outcome = (probability: number, segments: Segment[], goesOn: boolean, reports: number): Outcome => ({
    probability,
    segments,
    charge_C: segments.reduce((sum, segment) => sum + segment.current_A * segment.duration_s, 0),
    duration_s: segments.reduce((sum, segment) => sum + segment.duration_s, 0),
    goesOn,
    reports,
  })
  const outcomes = [outcome(1 - chance, [], true, 0)]
  // Geometric law cut off after the last try: success after k failures has probability (1 − p) p^k.
  for (let failures = 0; failures < tries; failures++) {
    const segments = segmentsOf(step, { failures, succeeds: true }, rest_A)
    outcomes.push(outcome(chance * (1 - fails) * fails ** failures, segments, true, step.reports))
  }
  const inVain = segmentsOf(step, { failures: tries, succeeds: false }, rest_A)
  outcomes.push(outcome(chance * fails ** tries, inVain, false, 0))
  return outcomes.filter(({ probability }) => probability > 0)
}

/** The steps of a wake in order: the boot steps come first where the device restarts. */
export function stepsOf<N>(wake: Pick<Wake<N>, 'resume' | 'boot' | 'steps'>): readonly Step<N>[] {
  return wake.resume === 'restart' ? [...wake.boot, ...wake.steps] : wake.steps
}

/**
 * Whether a step of every n-th wake has its turn in wake `index`. Wakes count from 1, so that a batch of six is sent
 * in the sixth wake, when there are six readings to send.
 */
export function hasTurn(every: number, index: number): boolean {
  return index % every === 0
}

function checkStep(step: Step<number>): void {
  const { retries, peak } = step
  const share = (what: string, value: number) => {
    if (!(value >= 0 && value <= 1))
      throw new RangeError(`step "${step.name}": ${what} must lie in 0..1, not ${value}`)
  }
  const time = (what: string, value: number) => {
    if (!(value >= 0 && value < Infinity))
      throw new RangeError(`step "${step.name}": ${what} must be 0 s or more, not ${value} s`)
  }
  time('its duration', step.duration_s)
  share('its chance', step.chance)
  if (peak !== null) time("its peak's duration", peak.duration_s)
  if (retries === null) return
  share('the probability that a try fails', retries.probability)
  time('the back-off', retries.backoff_s)
  time("a failed try's duration", retries.failedDuration_s)
  if (!(Number.isInteger(retries.times) && retries.times >= 0 && retries.times <= MOST_RETRIES))
    throw new RangeError(
      `step "${step.name}": retries must be a whole number from 0 to ${MOST_RETRIES}, not ${retries.times}`,
    )
}
