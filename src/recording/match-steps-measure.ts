/**
 * What a recording says of each step: how long, how much, how often. Amperes where the instrument sat, so whatever flows
 * always is in them. Scatter from wake to wake is type A (JCGM 100, 4.2); states measured on one instrument are taken as
 * fully correlated, so their uncertainties add up linearly, which errs to the wide side (5.2.2 note 1).
 */
import { compensatedSum } from '../numeric/sum.ts'
import type { Estimate } from '../quantity/estimate.ts'
import { meanOf, standardUncertainty } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Cycle } from './cycle.ts'
import type { Expected, Role, Roles } from './match-steps.ts'
import { type Occurrence, occurrencesIn } from './match-steps-occurrences.ts'
import { cycleShortfall, type Shortfall, stepShortfall } from './match-steps-shortfall.ts'
import { wholeWakes } from './match-steps-usual.ts'
import type { Analysis } from './states.ts'

/** A mean charge, which counts what read zero with half of all that it may be. */
export interface MeasuredCharge extends Estimate {
  /** Where something read zero, with none of that and with all: the charge lies anywhere between. Null where nothing did. */
  readonly ends: readonly [lowest: Estimate, highest: Estimate] | null
}

export interface MeasuredStep {
  /** Rising, as indices. */
  readonly states: readonly number[]
  /** In how many of the wakes that went through once, and were measured whole, it was seen. */
  readonly seen: number
  readonly wakes: number
  readonly current: Uncertain
  /** Per time that it is done; null where it was not measured from its beginning to its end in any wake. */
  readonly duration_s: Estimate | null
  readonly charge_C: MeasuredCharge | null
  /** Those measured whole. */
  readonly occurrences: readonly Occurrence[]
  readonly shortfall: Shortfall | null
}

export interface MeasuredCycle {
  /** Cycles that were measured whole, each until the next wake. */
  readonly count: number
  readonly charge_C: MeasuredCharge
  readonly period_s: Estimate
}

export interface OtherState {
  readonly state: number
  readonly charge_C: number
  readonly share: number
}

export interface Measured {
  /** One for each step expected; null where no state is it. */
  readonly steps: readonly (MeasuredStep | null)[]
  readonly rest: Uncertain | null
  readonly drains: readonly (Uncertain | null)[]
  readonly cycle: MeasuredCycle | null
  /** States of wakes that are no step, with their mean charge in a wake and their share of all wakes' charge. */
  readonly others: readonly OtherState[]
  readonly shortfalls: { readonly rest: Shortfall | null; readonly cycle: Shortfall | null }
}

/**
 * `currents`: for each state its mean with all that is uncertain about it. `clipped`: 1 for each segment that holds
 * clipped samples.
 */
export function measureSteps(
  analysis: Analysis,
  currents: readonly Uncertain[],
  roles: Roles,
  expected: Expected,
  interval_s: number,
  clipped: Uint8Array = new Uint8Array(analysis.segments.starts.length),
): Measured {
  const whole = wholeWakes(analysis.cycles.list, analysis.segments)
  const wakes = whole.map((cycle) => occurrencesIn(analysis, roles, cycle))
  const measured = wakes.filter((_, k) => whole[k].measured)
  const rest_s = restTimes(analysis, roles)
  const statesOf = (wanted: (role: Role) => boolean) =>
    roles.flatMap((own, state) => (own.some(wanted) ? [state] : []))
  return {
    steps: expected.steps.map((_, step) => {
      const states = statesOf((role) => role.kind === 'step' && role.step === step)
      if (states.length === 0) return null
      const all = wakes.flatMap((wake) => wake.get(step) ?? [])
      return {
        ...measuredStep(analysis, currents, states, all, interval_s),
        seen: measured.filter((wake) => wake.has(step)).length,
        wakes: measured.length,
        shortfall: stepShortfall(analysis, states, all, clipped),
      }
    }),
    rest: restCurrent(analysis, currents, rest_s),
    drains: expected.drains.map((_, drain) => {
      const [state] = statesOf((role) => role.kind === 'drain' && role.drain === drain)
      return state === undefined ? null : currents[state]
    }),
    cycle: measuredCycle(analysis, currents, interval_s),
    others: statesOf(({ kind }) => kind === 'none').map((state) => otherState(analysis, whole, state)),
    shortfalls: {
      rest: rest_s.some((time_s, k) => time_s > 0 && clipped[k] === 1) ? 'clipped' : null,
      cycle: cycleShortfall(analysis, clipped),
    },
  }
}

function measuredStep(
  { segments, states: described }: Analysis,
  currents: readonly Uncertain[],
  states: readonly number[],
  all: readonly Occurrence[],
  interval_s: number,
): Omit<MeasuredStep, 'seen' | 'wakes' | 'shortfall'> {
  const occurrences = all.filter(({ whole }) => whole)
  const shared = { states, occurrences }
  if (occurrences.length === 0) {
    const current = mixed(
      states.map((state) => ({ current: currents[state], time_s: described[state].time_s })),
    )
    return { ...shared, current, duration_s: null, charge_C: null }
  }
  const time_s = states.map((state) =>
    compensatedSum(
      occurrences.flatMap(({ segments: own }) =>
        own
          .filter((k) => segments.states[k] === state)
          .map((k) => segments.times_s[k + 1] - segments.times_s[k]),
      ),
    ),
  )
  const current = mixed(states.map((state, i) => ({ current: currents[state], time_s: time_s[i] })))
  // Begin and end lie anywhere within a sample each: Δ / √12 twice.
  const duration_s = meanOver(
    occurrences.map((each) => each.duration_s),
    interval_s / Math.sqrt(6),
  )
  const edges_C = (interval_s / Math.sqrt(6)) * meanOf(current)
  const scatter = meanOver(
    occurrences.map((each) => each.charge_C),
    edges_C,
  )
  const flown = states.map((state, i) => ({
    current: currents[state],
    time_s: time_s[i] / occurrences.length,
  }))
  return { ...shared, current, duration_s, charge_C: measuredCharge(scatter, flown) }
}

interface Flown {
  readonly current: Uncertain
  readonly time_s: number
}

/** A charge as it was counted, with what the instrument leaves open of the currents that it is made of. */
function measuredCharge(counted: Estimate, flown: readonly Flown[]): MeasuredCharge {
  const sum = (of: (current: Uncertain) => number) =>
    compensatedSum(flown.map(({ current, time_s }) => of(current) * time_s))
  const known_C = sum((current) => (current.kind === 'below' ? 0 : standardUncertainty(current)))
  const unseen_C = sum((current) => (current.kind === 'below' ? current.limit : 0))
  const lowest = withSystematic(counted, known_C)
  if (unseen_C === 0) return { ...lowest, ends: null }
  const middle = withSystematic(counted, known_C + unseen_C / Math.sqrt(12)) // JCGM 100, 4.3.7
  return {
    ...middle,
    value: counted.value + unseen_C / 2,
    ends: [lowest, { ...lowest, value: counted.value + unseen_C }],
  }
}

/**
 * Mean of a current that is one of several in turn; a single one stays as it is. Where some of it read zero, that is
 * anywhere below its limit, and the mean between two ends.
 */
function mixed(parts: readonly Flown[]): Uncertain {
  const flowing = parts.filter(({ time_s }) => time_s > 0)
  if (flowing.length === 1) return flowing[0].current
  const total_s = compensatedSum(flowing.map(({ time_s }) => time_s))
  const weighted = (of: (current: Uncertain) => number) =>
    compensatedSum(flowing.map(({ current, time_s }) => of(current) * time_s)) / total_s
  const unseen_A = weighted((current) => (current.kind === 'below' ? current.limit : 0))
  if (unseen_A === 0) return { kind: 'normal', value: weighted(meanOf), u: weighted(standardUncertainty) }
  if (flowing.every(({ current }) => current.kind === 'below')) return { kind: 'below', limit: unseen_A }
  const [low, high] = [-2, 2].map((k) =>
    weighted((current) =>
      current.kind === 'below' ? 0 : meanOf(current) + k * standardUncertainty(current),
    ),
  )
  return { kind: 'uniform', low: Math.max(low, 0), high: Math.max(high, 0) + unseen_A }
}

/** Type A (JCGM 100, 4.2.3), and no less than what `each`, the standard uncertainty of a single value, leaves. */
function meanOver(values: readonly number[], each: number): Estimate {
  const n = values.length
  const value = compensatedSum(values) / n
  const least = each / Math.sqrt(n)
  if (n === 1) return { value, u: least, dof: Infinity }
  const u = Math.sqrt(compensatedSum(values.map((x) => (x - value) ** 2)) / (n * (n - 1)))
  return u > least ? { value, u, dof: n - 1 } : { value, u: least, dof: Infinity }
}

/** With a part that is known; Welch–Satterthwaite (JCGM 100, eq. G.2b). */
function withSystematic({ value, u, dof }: Estimate, systematic: number): Estimate {
  const all = Math.hypot(u, systematic)
  return { value, u: all, dof: u === 0 || dof === null ? Infinity : dof * (all / u) ** 4 }
}

/** Of each segment the known time outside wakes, whatever state it is in then: a converter's bursts belong to the rest. */
function restTimes({ segments, cycles }: Analysis, roles: Roles): Float64Array {
  const resting = (state: number) => roles[state].some(({ kind }) => kind === 'rest')
  const awake = new Uint8Array(segments.starts.length)
  for (const { from, to } of cycles.list) awake.fill(1, from, to)
  const first = cycles.list[0]?.from ?? segments.starts.length
  const last = cycles.list.at(-1)?.to ?? 0
  return segments.covered_s.map((time_s, k) => {
    const state = segments.states[k]
    const between = k > first && k < last && roles[state].every(({ kind }) => kind !== 'drain')
    return awake[k] === 0 && (between || resting(state)) ? time_s : 0
  })
}

function restCurrent(
  { segments }: Analysis,
  currents: readonly Uncertain[],
  rest_s: Float64Array,
): Uncertain | null {
  const time_s = new Float64Array(currents.length)
  segments.states.forEach((state, k) => {
    time_s[state] += rest_s[k]
  })
  const parts = currents.map((current, state) => ({ current, time_s: time_s[state] }))
  return parts.some((part) => part.time_s > 0) ? mixed(parts) : null
}

function measuredCycle(
  { segments, cycles }: Analysis,
  currents: readonly Uncertain[],
  interval_s: number,
): MeasuredCycle | null {
  const whole = cycles.list.flatMap(({ from, charge_C, period_s }, k) =>
    charge_C === null || period_s === null ? [] : [{ from, to: cycles.list[k + 1].from, charge_C, period_s }],
  )
  if (whole.length === 0) return null
  const flown: Flown[] = []
  for (const { from, to } of whole)
    for (let k = from; k < to; k++)
      flown.push({
        current: currents[segments.states[k]],
        time_s: (segments.times_s[k + 1] - segments.times_s[k]) / whole.length,
      })
  const counted = meanOver(
    whole.map(({ charge_C }) => charge_C),
    0,
  )
  return {
    count: whole.length,
    charge_C: measuredCharge(counted, flown),
    period_s: meanOver(
      whole.map(({ period_s }) => period_s),
      interval_s / Math.sqrt(6),
    ),
  }
}

function otherState({ segments }: Analysis, wakes: readonly Cycle[], state: number): OtherState {
  const charge_C = compensatedSum(
    wakes.flatMap(({ from, to }) => [
      ...segments.charge_C.subarray(from, to).filter((_, i) => segments.states[from + i] === state),
    ]),
  )
  const all_C = compensatedSum(wakes.map(({ work_C }) => work_C))
  return { state, charge_C: charge_C / Math.max(wakes.length, 1), share: all_C > 0 ? charge_C / all_C : 0 }
}
