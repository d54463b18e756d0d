/** States and charges as the instrument leaves them known: each on its range, with that range's part of the uncertainty. */
import { type Instrument, type InstrumentRange, type RangeMark, rangeAt } from '../recording/instrument.ts'
import { burdenOf, pulseSeen } from '../recording/instrument-burden.ts'
import {
  chargeUncertainty,
  edgeUncertainty,
  readsZero,
  type SampledMean,
  stateCurrent,
} from '../recording/instrument-uncertainty.ts'
import type { SpanStatistics } from '../recording/span.ts'
import type { Analysis } from '../recording/states.ts'
import type { State } from '../recording/states-summary.ts'
import type { ChargeReading, StateReading } from '../report/recording-reading.ts'
import { Refusal } from './refusal.ts'

export interface Measuring {
  readonly instrument: Instrument | null
  /** Where the range was changed by hand; samples as in the analysis. */
  readonly marks: readonly RangeMark[]
  /** What fed the device, for the effect of the burden; null where nobody says. */
  readonly supply_V: number | null
}

export interface Measured {
  readonly states: readonly StateReading[]
  readonly charge: ChargeReading
  readonly cycleCharge: ChargeReading | null
}

/** Throws a Refusal where the instrument cannot have let such currents through. */
export function measuredStates(
  analysis: Analysis,
  measuring: Measuring,
  { charge_C }: SpanStatistics,
): Measured {
  const { states, cycles } = analysis
  const ranges = states.map((_, k) => rangeOf(analysis, k, measuring))
  const charge = chargeOf(analysis, ranges, measuring.instrument, charge_C)
  return {
    states: states.map((state, k) => stateReading(state, k, ranges[k], measuring, cycles.rest)),
    charge,
    cycleCharge: cycleCharge(analysis, ranges, measuring.instrument, charge),
  }
}

/** The coarsest range that any visit was measured on; null where a visit is beyond them all. */
function rangeOf(
  { segments }: Analysis,
  state: number,
  { instrument, marks }: Measuring,
): InstrumentRange | null {
  if (instrument === null) return null
  let coarsest: InstrumentRange | null = null
  for (let k = 0; k < segments.states.length; k++) {
    const mean_A = segments.mean_A[k]
    if (segments.states[k] !== state || Number.isNaN(mean_A)) continue
    const range = rangeAt(instrument, marks, segments.starts[k], mean_A)
    if (range === null) return null
    if (coarsest === null || range.fullScale_A > coarsest.fullScale_A) coarsest = range
  }
  return coarsest
}

function stateReading(
  state: State,
  index: number,
  range: InstrumentRange | null,
  { supply_V }: Measuring,
  rest: number | null,
): StateReading {
  const { mean_A, u_A } = state
  const scatter = u_A > 0 ? ({ kind: 'normal', value: mean_A, u: u_A } as const) : null
  return {
    ...state,
    name: stateName(index),
    rests: index === rest,
    current: range === null ? (scatter ?? { kind: 'exact', value: mean_A }) : stateCurrent(range, state),
    range: range?.name ?? null,
    heightSeen: range === null || state.dwell === null ? null : pulseSeen(range, state.dwell.median_s),
    burden: range === null || supply_V === null ? null : burdenAt(range, mean_A, supply_V),
  }
}

function burdenAt(range: InstrumentRange, mean_A: number, supply_V: number): StateReading['burden'] {
  try {
    return {
      ifResistance: burdenOf(range, mean_A, supply_V, 'resistance'),
      ifConstantPower: burdenOf(range, mean_A, supply_V, 'constant-power'),
    }
  } catch (error) {
    if (error instanceof RangeError)
      throw new Refusal(
        `The instrument cannot have measured this: ${error.message}. Check its burden, or the --voltage.`,
      )
    throw error
  }
}

/** `A` for the lowest, and on with `A1` behind `Z`. */
const stateName = (index: number): string =>
  String.fromCharCode(65 + (index % 26)) + (index < 26 ? '' : Math.floor(index / 26))

/** What read zero was somewhere between nothing and half a digit, and counts with its best value. In A. */
const unseenBy = (range: InstrumentRange | null, sampled: SampledMean): number =>
  range !== null && readsZero(range, sampled) ? range.digit_A / 4 : 0

function chargeOf(
  analysis: Analysis,
  ranges: readonly (InstrumentRange | null)[],
  instrument: Instrument | null,
  charge_C: number,
): ChargeReading {
  const parts = analysis.states.flatMap((sampled, k) => {
    const range = ranges[k]
    return range === null ? [] : [{ range, sampled, time_s: sampled.time_s }]
  })
  if (instrument === null || parts.length < analysis.states.length) return { charge_C, u_C: null }
  const unseen_C = parts.reduce(
    (sum, { range, sampled, time_s }) => sum + unseenBy(range, sampled) * time_s,
    0,
  )
  const edges_C = instrument.sample === 'instant' ? edgesOf(analysis) : 0
  return { charge_C: charge_C + unseen_C, u_C: Math.hypot(chargeUncertainty(parts).u_C, edges_C) }
}

function edgesOf({ segments, interval_s }: Analysis): number {
  const known = segments.mean_A.filter((mean_A) => !Number.isNaN(mean_A))
  return edgeUncertainty(
    known.subarray(1).map((mean_A, k) => mean_A - known[k]),
    interval_s,
  )
}

/**
 * Scatter from cycle to cycle falls with their number, the instrument's own error does not; where that is not known of
 * all that was measured, nothing is known of the charge.
 */
function cycleCharge(
  { cycles, segments, states }: Analysis,
  ranges: readonly (InstrumentRange | null)[],
  instrument: Instrument | null,
  whole: ChargeReading,
): ChargeReading | null {
  const spread = cycles.charge_C
  if (spread === null || spread.count < 2) return null
  let unseen_C = 0
  cycles.list.forEach((cycle, k) => {
    if (cycle.charge_C === null) return
    for (let j = cycle.from; j < cycles.list[k + 1].from; j++) {
      const state = segments.states[j]
      const lasted_s = segments.times_s[j + 1] - segments.times_s[j]
      unseen_C += unseenBy(ranges[state], states[state]) * lasted_s
    }
  })
  const charge_C = spread.mean + unseen_C / spread.count
  if (instrument !== null && whole.u_C === null) return { charge_C, u_C: null }
  const share = whole.u_C === null ? 0 : whole.u_C / Math.abs(whole.charge_C)
  return { charge_C, u_C: Math.hypot(spread.deviation / Math.sqrt(spread.count), share * charge_C) }
}
