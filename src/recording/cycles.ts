/**
 * Wakes and the cycles between them. A wake begins with the first rise out of rest; a cycle lasts until the next wake.
 * Which cycle is typical, and what is odd about the others: cycles-odd.ts. Wakes at clock minutes: cycles-clock.ts.
 */
import { quantileSorted } from '../numeric/quantile.ts'
import type { Cycle } from './cycle.ts'
import { boutsOf, restOf } from './cycles-bouts.ts'
import { type ClockAlignment, clockAlignment } from './cycles-clock.ts'
import { odditiesOf, typicalSequence } from './cycles-odd.ts'
import { chargeOf, isCovered, isWhole, type Segments } from './segments.ts'
import { type Dwell, dwellOf, type State } from './states-summary.ts'

export interface Spread {
  readonly count: number
  readonly mean: number
  /** With n − 1; 0 for a single value. */
  readonly deviation: number
  readonly p5: number
  readonly median: number
  readonly p95: number
}

export interface Cycles {
  /** The state between wakes; null when there is a single state. */
  readonly rest: number | null
  /** Every wake whose first rise is in the recording. */
  readonly list: readonly Cycle[]
  /** Of cycles that were measured whole, as all that follows. */
  readonly period_s: Spread | null
  /** Robust standard deviation of the period: 1.4826 times the median distance from the median. */
  readonly jitter_s: number | null
  readonly charge_C: Spread | null
  readonly work_s: Dwell | null
  /** States of the typical wake, and how many wakes are like it. */
  readonly typical: { readonly sequence: readonly number[]; readonly wakes: number } | null
  readonly clock: ClockAlignment | null
}

const MEDIAN_TO_DEVIATION = 1.4826

/** `epoch_s`: when the first sample was, for wakes at clock minutes; null when not known. */
export function cyclesOf(states: readonly State[], segments: Segments, epoch_s: number | null): Cycles {
  const rest = restOf(states)
  const bouts = rest === null ? [] : boutsOf(states, segments, rest)
  const plain = bouts.map((bout, k) => cycleOf(segments, bout, bouts[k + 1] ?? null))
  const periods = plain.flatMap(({ period_s }) => period_s ?? [])
  const jitter_s = robustDeviation(periods)
  const period_s = spreadOf(periods)
  const regularity =
    period_s && jitter_s !== null ? { count: period_s.count, median_s: period_s.median, jitter_s } : null
  const odd = odditiesOf(plain, segments, rest ?? 0, regularity)
  const list = plain.map((cycle, k) => ({ ...cycle, odd: odd[k] }))
  return {
    rest,
    list,
    period_s,
    jitter_s,
    charge_C: spreadOf(plain.flatMap(({ charge_C }) => charge_C ?? [])),
    work_s: dwellOf(plain.filter(({ measured }) => measured).map(({ work_s }) => work_s)),
    typical: typicalSequence(plain),
    clock: clockAlignment(
      plain.filter(({ from }) => segments.edgeSeen[from] === 1).map(({ start_s }) => start_s),
      epoch_s,
    ),
  }
}

function cycleOf(
  segments: Segments,
  { from, to }: { from: number; to: number },
  next: { from: number } | null,
): Omit<Cycle, 'odd'> {
  const { times_s, charge_C, states, edgeSeen } = segments
  const isKnown = next !== null && edgeSeen[next.from] === 1 && edgeSeen[from] === 1
  const until = isKnown && isCovered(segments, from, next.from) ? next.from : null
  return {
    from,
    to,
    start_s: times_s[from],
    measured: to < states.length && isWhole(segments, from, to),
    work_s: times_s[to] - times_s[from],
    period_s: until === null ? null : times_s[until] - times_s[from],
    charge_C: until === null ? null : chargeOf(segments, from, until),
    work_C: chargeBetween(charge_C, from, to),
    sequence: [...states.subarray(from, to)],
  }
}

function chargeBetween(charge_C: Float64Array, from: number, to: number): number {
  let sum = 0
  for (let k = from; k < to; k++) sum += charge_C[k]
  return sum
}

function spreadOf(values: readonly number[]): Spread | null {
  const dwell = dwellOf(values)
  if (dwell === null) return null
  const { visits, mean_s, deviation_s, p5_s, median_s, p95_s } = dwell
  return { count: visits, mean: mean_s, deviation: deviation_s, p5: p5_s, median: median_s, p95: p95_s }
}

function robustDeviation(values: readonly number[]): number | null {
  if (values.length < 2) return null
  const median = quantileSorted(Float64Array.from(values).sort(), 0.5)
  const distances = Float64Array.from(values, (value) => Math.abs(value - median)).sort()
  return MEDIAN_TO_DEVIATION * quantileSorted(distances, 0.5)
}
