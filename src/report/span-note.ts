/** What a stretch of a recording comes to, in a sentence: `2.41 s at 81.9 ± 0.6 mA: 197 mC, 63 % of this wake.` */
import { formatQuantity } from '../quantity/format.ts'
import { formatMeasured } from '../quantity/measured.ts'
import { standardUncertainty } from '../quantity/spread.ts'
import type { SpanStatistics } from '../recording/span.ts'
import { energyInWords } from './energy-words.ts'
import type { RecordingReading, StateBands, StateReading } from './recording-reading.ts'
import { chargeInWords, duration } from './recording-words.ts'

/** What is known of the recording besides its samples; `bands` are those of the reading. */
export interface ReadAlready {
  readonly reading: RecordingReading
  readonly bands: StateBands
}

const DIGITS = 3
/** A stretch with so much of its time in one state is a stretch of that state. */
const ONE_STATE = 0.98
/** What sums of many holds leave in their last digits is no time. */
const LEAST_MISSING = 1e-9
/** Edges are known to a sample or so: a stretch may end a little outside of a wake and still be of it. */
const EDGE_SAMPLES = 2

/** `read` is null while the states are not known: then nothing is said of how sure it is. */
export function spanNote(span: SpanStatistics, read: ReadAlready | null): string {
  const { mean_A, charge_C, missing_s } = span
  const lasts = duration(span.duration_s)
  if (mean_A === null) return `${lasts} in which nothing was measured.`
  const times = read === null ? null : timeByState(span, read.bands)
  const u_C = times === null || read === null ? null : chargeUncertainty(times, read.reading.states)
  const [most, time_s] = [...(times ?? [])].reduce((a, b) => (b[1] > a[1] ? b : a), [-1, 0])
  const isOne = time_s >= ONE_STATE * span.duration_s
  const where =
    read === null || times === null ? '' : isOne ? ` (${read.reading.states[most].name})` : ' on average'
  const charge = chargeInWords({ charge_C, u_C })
  const energy = energyInWords(span, DIGITS)
  const share = read === null ? '' : shareInWords(span, read.reading)
  const unknown =
    missing_s > LEAST_MISSING * span.duration_s ? `; ${duration(missing_s)} of it are not known` : ''
  return `${lasts} at ${meanInWords(span, u_C)}${where}: ${charge}${energy === null ? '' : `, ${energy}`}${share}${unknown}.`
}

function meanInWords({ mean_A, covered_s }: SpanStatistics, u_C: number | null): string {
  const value = mean_A ?? 0
  return u_C === null || u_C === 0
    ? formatQuantity(value, 'current', { digits: DIGITS })
    : formatMeasured(value, u_C / covered_s, 'current')
}

/** Seconds in each state; null where the states of a part of it are not known. */
function timeByState({ from_s, to_s, duration_s }: SpanStatistics, { times_s, states }: StateBands) {
  const times = new Map<number, number>()
  let known_s = 0
  for (let k = stretchAt(times_s, from_s); k < states.length && times_s[k] < to_s; k++) {
    const inside = Math.min(times_s[k + 1], to_s) - Math.max(times_s[k], from_s)
    if (inside <= 0) continue
    known_s += inside
    times.set(states[k], (times.get(states[k]) ?? 0) + inside)
  }
  return known_s >= ONE_STATE * duration_s ? times : null
}

/** The last that begins at or before a time; the first for times before all. */
function stretchAt(times_s: readonly number[], time_s: number): number {
  let low = 0
  let high = times_s.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (times_s[middle] <= time_s) low = middle
    else high = middle - 1
  }
  return low
}

/**
 * Standard uncertainty of a charge that flowed in these states, in C. What the scatter of a state leaves of its mean falls
 * with the time in it; the instrument's own part does not, and is one unknown error within a range (JCGM 100, 5.2.2).
 */
function chargeUncertainty(times: ReadonlyMap<number, number>, states: readonly StateReading[]): number {
  let scatterSquare = 0
  const byRange = new Map<string | null, number>()
  for (const [state, time_s] of times) {
    const { u_A, deviation_A, effectiveSamples, time_s: all_s, current, range } = states[state]
    const samples = Math.max((effectiveSamples * time_s) / all_s, 1)
    scatterSquare += ((deviation_A / Math.sqrt(samples)) * time_s) ** 2
    const own_A = Math.sqrt(Math.max(standardUncertainty(current) ** 2 - u_A ** 2, 0))
    byRange.set(range, (byRange.get(range) ?? 0) + own_A * time_s)
  }
  const instrument = [...byRange.values()].reduce((sum, part_C) => sum + part_C ** 2, 0)
  return Math.sqrt(scatterSquare + instrument)
}

/** Of the wake or cycle that it lies in; of several, how many they are and what each takes. */
function shareInWords(span: SpanStatistics, { cycles, interval_s, span: read }: RecordingReading): string {
  const from_s = span.from_s - read.from_s
  const to_s = span.to_s - read.from_s
  const room_s = EDGE_SAMPLES * interval_s
  const own = cycles.list.findLast(({ start_s }) => start_s <= from_s + room_s)
  if (own !== undefined && to_s <= own.start_s + own.work_s + room_s)
    return `, ${percent(span.charge_C / own.work_C)} of this wake`
  if (own?.period_s != null && own.charge_C !== null && to_s <= own.start_s + own.period_s + room_s)
    return `, ${percent(span.charge_C / own.charge_C)} of this cycle`
  const whole = cycles.list.filter(
    ({ start_s, work_s }) => start_s >= from_s - room_s && start_s + work_s <= to_s + room_s,
  )
  return whole.length < 2 ? '' : `, ${whole.length} wakes`
}

const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`
