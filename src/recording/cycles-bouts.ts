/** Where the device rests, and the bouts of work between. */
import { quantileSorted } from '../numeric/quantile.ts'
import type { Segments } from './segments.ts'
import type { State } from './states-summary.ts'

export interface Bout {
  readonly from: number
  readonly to: number
}

/** Rest holds at least this share of the time … */
const LEAST_REST_SHARE = 0.05
/** … and a rest shorter than this share of the usual one is a pause within a wake, where wakes are regular. */
const PAUSE = 0.25
/** Wakes are regular when rests scatter by less than this share. */
const REGULAR = 0.3
const MEDIAN_TO_DEVIATION = 1.4826
/** A bout of less than these shares of the usual work that does not begin like a wake is a disturbance. */
const LEAST_CHARGE = 0.01
const LEAST_DURATION = 0.2

/** The lowest state that holds a fair share of the time; null when there is only one state. */
export function restOf(states: readonly State[]): number | null {
  if (states.length < 2) return null
  const rest = states.findIndex(({ timeShare }) => timeShare >= LEAST_REST_SHARE)
  return rest === states.length - 1 ? 0 : rest
}

/** Bouts of work: runs of segments above rest, from their first rise, pauses of a retry within them. */
export function boutsOf(states: readonly State[], segments: Segments, rest: number): Bout[] {
  const bouts: Bout[] = []
  const count = segments.starts.length
  for (let k = 0; k < count; k++) {
    if (segments.states[k] <= rest) continue
    const from = k
    while (k < count && segments.states[k] > rest) k++
    // What is under way when the recording begins has no first rise.
    if (from > 0) bouts.push({ from, to: k })
  }
  return withoutPauses(withoutDisturbances(bouts, states, segments, rest), segments)
}

/** Spikes and noise that rose above rest for a moment are no wakes. */
function withoutDisturbances(
  bouts: readonly Bout[],
  states: readonly State[],
  segments: Segments,
  rest: number,
): Bout[] {
  if (bouts.length < 3) return [...bouts]
  const restCurrent = states[rest].mean_A
  const extra = ({ from, to }: Bout) => {
    let charge = -restCurrent * (segments.times_s[to] - segments.times_s[from])
    for (let k = from; k < to; k++) charge += segments.charge_C[k]
    return charge
  }
  const lasting = ({ from, to }: Bout) => segments.times_s[to] - segments.times_s[from]
  const leastCharge = LEAST_CHARGE * upperQuartile(bouts.map(extra))
  const leastDuration = LEAST_DURATION * upperQuartile(bouts.map(lasting))
  const wakes = bouts.filter((bout) => extra(bout) >= leastCharge)
  const begins = new Map<number, number[]>()
  for (const bout of wakes) {
    const state = segments.states[bout.from]
    const first = segments.times_s[bout.from + 1] - segments.times_s[bout.from]
    begins.set(state, [...(begins.get(state) ?? []), first])
  }
  const beginsLikeWake = (bout: Bout) => {
    const firsts = begins.get(segments.states[bout.from]) ?? []
    return firsts.length > wakes.length / 4 && lasting(bout) > upperQuartile(firsts) / 2
  }
  return bouts.filter(
    (bout) => extra(bout) >= leastCharge || lasting(bout) >= leastDuration || beginsLikeWake(bout),
  )
}

/** After a failed try the device rests for a moment and goes on: that is one wake. */
function withoutPauses(bouts: readonly Bout[], { times_s }: Segments): Bout[] {
  const rests = bouts.slice(1).map(({ from }, k) => times_s[from] - times_s[bouts[k].to])
  if (rests.length < 3) return [...bouts]
  const usual = upperQuartile(rests)
  const long = rests.filter((rest) => rest >= PAUSE * usual)
  const middle = quantileSorted(Float64Array.from(long).sort(), 0.5)
  const scatter = quantileSorted(Float64Array.from(long, (rest) => Math.abs(rest - middle)).sort(), 0.5)
  if (MEDIAN_TO_DEVIATION * scatter > REGULAR * middle) return [...bouts]
  const joined: Bout[] = [bouts[0]]
  rests.forEach((rest, k) => {
    const last = joined[joined.length - 1]
    if (rest < PAUSE * usual) joined[joined.length - 1] = { from: last.from, to: bouts[k + 1].to }
    else joined.push(bouts[k + 1])
  })
  return joined
}

/** Stands for the usual value even where up to half of all values are disturbances, which are small. */
function upperQuartile(values: readonly number[]): number {
  return quantileSorted(Float64Array.from(values).sort(), 0.75)
}
