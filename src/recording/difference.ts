/**
 * Two recordings of the same device, before and after: which states appeared, vanished or shifted, and what a cycle takes.
 * Every question is tested with what autocorrelation leaves of the samples, and all of them together by Holm's method.
 * Errors that both recordings share (one instrument, one range) cancel and are not in the uncertainties.
 */
import { matchStates } from './difference-match.ts'
import {
  type Estimate,
  estimateOfMean,
  holm,
  type TestedDifference,
  testDifference,
} from './difference-test.ts'
import { isWhole } from './segments.ts'
import type { Analysis } from './states.ts'
import type { State } from './states-summary.ts'

export interface Tested extends TestedDifference {
  /** `p` corrected for the number of questions asked of this pair of recordings. */
  readonly pAdjusted: number
  readonly significant: boolean
}

export interface StateDifference {
  /** `same`: neither current nor dwell differ by more than chance. */
  readonly kind: 'same' | 'shifted' | 'appeared' | 'vanished'
  /** Index of the state in each recording. */
  readonly before: number | null
  readonly after: number | null
  /** In A; null where one side has no such state. */
  readonly current: Tested | null
  /** Mean length of a visit, in s; null where one side has fewer than two whole visits. */
  readonly dwell: Tested | null
  /** For a state that one side lacks: that it is lacking by chance. Null for a pair. */
  readonly presence: { readonly p: number; readonly pAdjusted: number; readonly significant: boolean } | null
}

export interface Difference {
  readonly states: readonly StateDifference[]
  /** Per cycle: charge in C, time at work and period in s; null where one side has fewer than two. */
  readonly charge: Tested | null
  readonly work: Tested | null
  readonly period: Tested | null
  /** Questions asked, and the probability that any difference is called significant by chance. */
  readonly questions: number
  readonly significance: number
}

const SIGNIFICANCE = 0.05
/** The scatter between visits is used, and counts, from so many on; as in states-summary.ts. */
const FEWEST_VISITS = 5
const DITHER_DIGITS = 0.5

export function differenceOf(before: Analysis, after: Analysis, significance = SIGNIFICANCE): Difference {
  const rests = { before: before.cycles.rest, after: after.cycles.rest }
  const known = rests.before === null || rests.after === null ? null : rests
  const pairs = matchStates(before.states, after.states, known)
  const ask = new Questions()
  const asked = pairs.map((pair) => {
    if (pair.before === null || pair.after === null)
      return { pair, presence: ask.presence(before, after, pair) }
    const current = ask.difference(currentOf(before, pair.before), currentOf(after, pair.after))
    return { pair, current, dwell: ask.difference(dwellOf(before, pair.before), dwellOf(after, pair.after)) }
  })
  const cycles = (of: (cycle: Analysis['cycles']['list'][number]) => number | null) =>
    ask.difference(perCycle(before, of), perCycle(after, of))
  const charge = cycles(({ charge_C }) => charge_C)
  const work = cycles(({ work_s, measured }) => (measured ? work_s : null))
  const period = cycles(({ period_s }) => period_s)
  const adjusted = holm(ask.p)
  const judge = <T extends { readonly p: number }>(question: Question<T> | null | undefined) => {
    if (!question) return null
    const pAdjusted = adjusted[question.number]
    return { ...question.answer, pAdjusted, significant: pAdjusted < significance }
  }
  const states = asked.map(({ pair, ...questions }): StateDifference => {
    const [current, dwell, presence] = [
      judge(questions.current),
      judge(questions.dwell),
      judge(questions.presence),
    ]
    const shifted = current?.significant || dwell?.significant
    const paired = shifted ? 'shifted' : 'same'
    return {
      kind: pair.before === null ? 'appeared' : pair.after === null ? 'vanished' : paired,
      ...pair,
      current,
      dwell,
      presence,
    }
  })
  return {
    states,
    charge: judge(charge),
    work: judge(work),
    period: judge(period),
    questions: ask.p.length,
    significance,
  }
}

interface Question<T> {
  readonly number: number
  readonly answer: T
}

/** Collects all p-values, so that they can be corrected together. */
class Questions {
  readonly p: number[] = []

  difference(before: Estimate | null, after: Estimate | null): Question<TestedDifference> | null {
    return before === null || after === null ? null : this.put(testDifference(before, after))
  }

  /** All visits fell on one side: as likely as that many draws in a row, each side weighing as its wakes do. */
  presence(
    before: Analysis,
    after: Analysis,
    pair: { before: number | null; after: number | null },
  ): Question<{ p: number }> {
    const wakesBefore = Math.max(before.cycles.list.length, 1)
    const wakesAfter = Math.max(after.cycles.list.length, 1)
    const share = (pair.before === null ? wakesAfter : wakesBefore) / (wakesBefore + wakesAfter)
    const { visits } = pair.before === null ? after.states[pair.after!] : before.states[pair.before]
    return this.put({ p: Math.min(2 * share ** visits, 1) })
  }

  private put<T extends { readonly p: number }>(answer: T): Question<T> {
    return { number: this.p.push(answer.p) - 1, answer }
  }
}

function currentOf({ states, digit_A }: Analysis, k: number): Estimate {
  const { mean_A, u_A, visits, effectiveSamples, deviation_A }: State = states[k]
  const digit = digit_A ?? 0
  const averaged = deviation_A >= DITHER_DIGITS * digit ? effectiveSamples : 1
  const freedom = visits >= FEWEST_VISITS ? Math.min(visits, effectiveSamples) - 1 : effectiveSamples - 1
  return {
    value: mean_A,
    u: Math.hypot(u_A, digit / Math.sqrt(12 * averaged)),
    freedom: Math.max(freedom, 1),
  }
}

/** Whole visits only; each edge is known to a sample. */
function dwellOf({ segments, interval_s }: Analysis, state: number): Estimate | null {
  const { states, times_s } = segments
  const lasts: number[] = []
  for (let k = 0; k < states.length; k++)
    if (states[k] === state && isWhole(segments, k, k + 1)) lasts.push(times_s[k + 1] - times_s[k])
  const estimate = estimateOfMean(lasts)
  return estimate && { ...estimate, u: Math.hypot(estimate.u, interval_s / Math.sqrt(6 * lasts.length)) }
}

function perCycle({ cycles }: Analysis, of: (cycle: Analysis['cycles']['list'][number]) => number | null) {
  return estimateOfMean(cycles.list.flatMap((cycle) => of(cycle) ?? []))
}
