/** How well an analysis agrees with the truth of a made-up recording. */
import { compensatedSum } from '../numeric/sum.ts'
import type { MadeUp } from './made-up.ts'
import type { Analysis } from './states.ts'
import type { State } from './states-summary.ts'

export interface StateScore {
  readonly true_A: number
  readonly found_A: number
  /** Standard uncertainty that was stated. */
  readonly u_A: number
}

export interface Score {
  readonly states: readonly StateScore[]
  readonly statesFound: number
  /** Changes in truth, how many of them were found to within two samples, and how many found are none. */
  readonly changes: number
  readonly changesWithin: number
  readonly changesExtra: number
  readonly wakes: number
  readonly wakesFound: number
  /** Of the charge, relative: against the samples added up one by one, and against what flowed before rounding. */
  readonly chargeErrorRead: number
  readonly chargeErrorFlowed: number
  /** Wakes that went wrong, and how many of them are called odd; wakes that did not, and how many are. */
  readonly odd: number
  readonly oddFound: number
  readonly plain: number
  readonly plainCalledOdd: number
}

const WITHIN_SAMPLES = 2

/** `uncertainty`: standard uncertainty of a state's mean in A, the instrument's part included. */
export function score(
  { truth, current_A, interval_s }: MadeUp,
  { states, segments, cycles }: Analysis,
  uncertainty: (state: State) => number,
): Score {
  const partners = likeliestPartners(truth, segments, current_A.length, states.length)
  // Both begin at 0, which is no change.
  const changes = truth.starts.subarray(1)
  const found = segments.starts.subarray(1)
  const wakes = cycles.list.map(({ from }) => segments.starts[from])
  const oddAt = (sample: number) =>
    cycles.list.some(({ odd }, k) => odd.length > 0 && Math.abs(wakes[k] - sample) <= WITHIN_SAMPLES)
  const odd = truth.odd.flatMap((what, k) => (what === null ? [] : [truth.wakes[k]]))
  const plain = truth.odd.flatMap((what, k) => (what === null ? [truth.wakes[k]] : []))
  const charge_C = compensatedSum(segments.charge_C)
  return {
    states: truth.means_A.flatMap((true_A, k) => {
      const partner = states[partners[k]]
      return true_A === null ? [] : [{ true_A, found_A: partner.mean_A, u_A: uncertainty(partner) }]
    }),
    statesFound: states.length,
    changes: changes.length,
    changesWithin: countNear(changes, found),
    changesExtra: found.length - countNear(found, changes),
    wakes: truth.wakes.length,
    wakesFound: cycles.list.length,
    chargeErrorRead: charge_C / (compensatedSum(current_A) * interval_s) - 1,
    chargeErrorFlowed: charge_C / truth.charge_C - 1,
    odd: odd.length,
    oddFound: odd.filter(oddAt).length,
    plain: plain.length,
    plainCalledOdd: plain.filter(oddAt).length,
  }
}

/** How many of `these` have one of `those` within two samples; both rise. */
function countNear(these: Int32Array, those: Int32Array): number {
  let near = 0
  let k = 0
  for (const place of these) {
    while (k < those.length && those[k] < place - WITHIN_SAMPLES) k++
    if (k < those.length && those[k] <= place + WITHIN_SAMPLES) near++
  }
  return near
}

/** For each true state the found one that shares most samples with it. */
function likeliestPartners(
  truth: MadeUp['truth'],
  segments: Analysis['segments'],
  samples: number,
  found: number,
): number[] {
  const shared = truth.means_A.map(() => new Float64Array(found))
  for (let t = 0, f = 0, at = 0; at < samples; ) {
    const endT = t + 1 < truth.starts.length ? truth.starts[t + 1] : samples
    const endF = f + 1 < segments.starts.length ? segments.starts[f + 1] : samples
    const end = Math.min(endT, endF)
    shared[truth.states[t]][segments.states[f]] += end - at
    if (endT === end) t++
    if (endF === end) f++
    at = end
  }
  return shared.map((row) => row.indexOf(Math.max(...row)))
}
