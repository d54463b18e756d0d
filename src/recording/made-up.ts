/**
 * Made-up recordings whose truth is known, for tests and demonstrations. A case is drawn from (seed, number) by
 * made-up-plan.ts; here it is played sample by sample. Each sample is the mean current over its hold, so a change inside
 * a hold gives a value in between.
 */
import { normalQuantileFast } from '../numeric/normal.ts'
import { stream } from '../numeric/random.ts'
import { CompensatedSum } from '../numeric/sum.ts'

export interface MadeUpVisit {
  /** Index into the plan's levels; 0 is rest. */
  readonly state: number
  readonly duration_s: number
}

export type MadeUpOddity = 'retry' | 'back-off' | 'longer' | 'missed' | 'truncated' | 'extra'

export interface MadeUpPlan {
  readonly interval_s: number
  readonly levels_A: readonly number[]
  /** The recording starts and ends at rest. */
  readonly visits: readonly MadeUpVisit[]
  /** Index of the first visit of each wake, with what is odd about it. */
  readonly wakes: readonly { readonly visit: number; readonly odd: MadeUpOddity | null }[]
  /** Standard deviation of the noise over the level, per state. */
  readonly noise: readonly number[]
  /** Correlation of the noise from one sample to the next, 0 to below 1. */
  readonly correlation: number
  /** Share by which all levels rise from start to end, and amplitude of a slow wave over the recording. */
  readonly drift: { readonly rise: number; readonly wave: number }
  readonly hum: { readonly frequency_Hz: number; readonly amplitude_A: number } | null
  /** Sawtooth of the states that work, as a share of the level. */
  readonly ripple: { readonly period: number; readonly share: number } | null
  /** A converter that works in bursts at rest: every `period` samples, `length` of them carry `share` of the charge. */
  readonly bursts: { readonly period: number; readonly length: number; readonly share: number } | null
  /** Step of the instrument's reading; null when continuous. */
  readonly digit_A: number | null
}

export interface MadeUpTruth {
  /** First sample of each visit: the one that the change lies in. */
  readonly starts: Int32Array
  readonly states: Uint8Array
  /** Mean current without noise of each state, over the times when it was on; null when it never was. */
  readonly means_A: readonly (number | null)[]
  /** First sample of each wake. */
  readonly wakes: Int32Array
  readonly odd: readonly (MadeUpOddity | null)[]
  /** Charge that flowed, before the instrument rounded it. */
  readonly charge_C: number
}

export interface MadeUp {
  readonly interval_s: number
  readonly current_A: Float32Array
  readonly truth: MadeUpTruth
}

/** Plays a plan; equal seed and path give equal samples. */
export function makeUp(plan: MadeUpPlan, seed: number, path: number): MadeUp {
  const edges = edgesOf(plan)
  const n = Math.floor(edges[plan.visits.length])
  const current_A = new Float32Array(n)
  const draws = stream(seed, path, NOISE)
  const charge = new CompensatedSum()
  const sums = plan.levels_A.map(() => ({ sum: 0, count: 0 }))
  const fresh = Math.sqrt(1 - plan.correlation ** 2)
  let wander = 0
  for (let visit = 0, i = 0; i < n; i++) {
    while (edges[visit + 1] <= i) visit++
    const { state } = plan.visits[visit]
    // The part of the hold after the next change belongs to the next state.
    const after = visit + 1 < plan.visits.length ? Math.max(i + 1 - edges[visit + 1], 0) : 0
    const own = clean(plan, state, i, n)
    const next = after > 0 ? clean(plan, plan.visits[visit + 1].state, i, n) : 0
    wander = plan.correlation * wander + fresh * normalQuantileFast(draws.uniform())
    const noise =
      (1 - after) * own * plan.noise[state] +
      (after > 0 ? after * next * plan.noise[plan.visits[visit + 1].state] : 0)
    const flowing = (1 - after) * own + after * next + noise * wander + humAt(plan, i)
    if (after === 0) {
      sums[state].sum += own
      sums[state].count++
    }
    charge.add(flowing)
    current_A[i] = plan.digit_A === null ? flowing : Math.round(flowing / plan.digit_A) * plan.digit_A
  }
  const starts = Int32Array.from(plan.visits, (_, k) => Math.floor(edges[k]))
  return {
    interval_s: plan.interval_s,
    current_A,
    truth: {
      starts,
      states: Uint8Array.from(plan.visits, ({ state }) => state),
      means_A: sums.map(({ sum, count }) => (count === 0 ? null : sum / count)),
      wakes: Int32Array.from(plan.wakes, ({ visit }) => starts[visit]),
      odd: plan.wakes.map(({ odd }) => odd),
      charge_C: charge.value * plan.interval_s,
    },
  }
}

const NOISE = 1

/** Start of each visit, in samples and parts of them, then the end. */
function edgesOf(plan: MadeUpPlan): Float64Array {
  const edges = new Float64Array(plan.visits.length + 1)
  plan.visits.forEach(({ duration_s }, k) => {
    edges[k + 1] = edges[k] + duration_s / plan.interval_s
  })
  return edges
}

/** Current of a state at sample i of n, without noise and hum. */
function clean(plan: MadeUpPlan, state: number, i: number, n: number): number {
  const { drift, ripple, bursts } = plan
  let current = plan.levels_A[state] * (1 + drift.rise * (i / n - 0.5) + drift.wave * Math.sin((7 * i) / n))
  if (state > 0 && ripple) current *= 1 + ripple.share * ((2 * (i % ripple.period)) / (ripple.period - 1) - 1)
  if (state === 0 && bursts) {
    const on = i % bursts.period < bursts.length
    const part = bursts.length / bursts.period
    current *= on ? bursts.share / part : (1 - bursts.share) / (1 - part)
  }
  return current
}

function humAt(plan: MadeUpPlan, i: number): number {
  if (plan.hum === null) return 0
  return plan.hum.amplitude_A * Math.sin(2 * Math.PI * plan.hum.frequency_Hz * i * plan.interval_s)
}
