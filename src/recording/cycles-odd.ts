/** The typical wake, and what is odd about the others. */
import { quantileSorted } from '../numeric/quantile.ts'
import type { Cycle, Oddity } from './cycle.ts'
import type { Segments } from './segments.ts'

type Plain = Omit<Cycle, 'odd'>

/** A period of this many usual ones, give or take a quarter, hides missed wakes where the period is regular. */
const REGULAR = 0.2
const WHOLE_WITHIN = 0.25
const FEWEST_ALIKE = 3
const LONGER = 1.5
const SHORTER = 0.5
/** And so many robust deviations from the usual. */
const DEVIATIONS = 6
const MEDIAN_TO_DEVIATION = 1.4826

/** The commonest sequence of states, the first of equals, of wakes measured whole where there are any. Null without wakes. */
export function typicalSequence(
  cycles: readonly Plain[],
): { sequence: readonly number[]; wakes: number } | null {
  const counts = new Map<string, { sequence: readonly number[]; wakes: number }>()
  const measured = cycles.filter((cycle) => cycle.measured)
  for (const { sequence } of measured.length > 0 ? measured : cycles) {
    const key = sequence.join()
    counts.set(key, { sequence, wakes: (counts.get(key)?.wakes ?? 0) + 1 })
  }
  return [...counts.values()].reduce<{ sequence: readonly number[]; wakes: number } | null>(
    (best, each) => (best === null || each.wakes > best.wakes ? each : best),
    null,
  )
}

/** What is usual: of wakes like the typical one, and of the period where it is regular. */
interface Usual {
  /** States up to this one are rest. */
  readonly rest: number
  readonly sequence: readonly number[]
  /** Per place of the sequence; null where too few wakes are like it. */
  readonly durations: readonly { readonly usual_s: number; readonly allowed_s: number }[] | null
  readonly period_s: number | null
}

/** For each cycle what is odd about it, in the order in which it happened; of what was not measured nothing is said. */
export function odditiesOf(
  cycles: readonly Plain[],
  segments: Segments,
  rest: number,
  period: Regularity | null,
): Oddity[][] {
  const typical = typicalSequence(cycles)
  if (typical === null) return []
  const regular = period !== null && period.count >= 3 && period.jitter_s <= REGULAR * period.median_s
  const usual: Usual = {
    rest,
    sequence: typical.sequence,
    durations: usualDurations(cycles, typical.sequence, segments),
    period_s: regular ? period.median_s : null,
  }
  return cycles.map((cycle) => [
    ...(cycle.measured ? oddWork(cycle, usual, segments) : []),
    ...missedWakes(cycle.period_s, usual.period_s),
  ])
}

export interface Regularity {
  readonly count: number
  readonly median_s: number
  readonly jitter_s: number
}

function oddWork(cycle: Plain, usual: Usual, segments: Segments): Oddity[] {
  return same(cycle.sequence, usual.sequence)
    ? oddDurations(cycle, usual, segments)
    : oddSequence(cycle.sequence, usual.sequence, usual.rest)
}

function missedWakes(period_s: number | null, usual_s: number | null): Oddity[] {
  if (period_s === null || usual_s === null) return []
  const times = Math.round(period_s / usual_s)
  const missed = times >= 2 && Math.abs(period_s / usual_s - times) <= WHOLE_WITHIN
  return missed ? [{ kind: 'missed', wakes: times - 1 }] : []
}

function oddSequence(sequence: readonly number[], typical: readonly number[], rest: number): Oddity[] {
  const missing = missingEnd(sequence, typical)
  if (missing !== null) return [{ kind: 'truncated', states: missing }]
  const repeated = repeatedBlock(sequence, typical, rest)
  if (repeated !== null) return repeated
  const common = longestCommon(sequence, typical)
  const extra = without(sequence, common)
  const lacking = without(typical, common)
  const odd: Oddity[] = []
  if (extra.length > 0) odd.push({ kind: 'extra', states: extra })
  if (lacking.length > 0) odd.push({ kind: 'lacking', states: lacking })
  return odd
}

const same = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((state, k) => state === b[k])

/** States of the typical wake after those that came; null where the wake is no beginning of it. */
function missingEnd(sequence: readonly number[], typical: readonly number[]): readonly number[] | null {
  return same(sequence, typical.slice(0, sequence.length)) ? typical.slice(sequence.length) : null
}

/** The sequence with one block that comes twice, a pause at rest between or not, taken out once is the typical wake or its beginning. */
function repeatedBlock(
  sequence: readonly number[],
  typical: readonly number[],
  rest: number,
): Oddity[] | null {
  for (let length = 1; length <= sequence.length / 2; length++)
    for (let pause = 0; pause <= 1; pause++)
      for (let first = 0; first + 2 * length + pause <= sequence.length; first++) {
        const again = first + length + pause
        if (pause === 1 && sequence[again - 1] > rest) continue
        const block = sequence.slice(first, first + length)
        if (!same(block, sequence.slice(again, again + length))) continue
        const once = [...sequence.slice(0, first), ...sequence.slice(again)]
        const missing = missingEnd(once, typical)
        if (missing === null) continue
        const odd: Oddity[] = [{ kind: 'repeated', states: block }]
        if (missing.length > 0) odd.push({ kind: 'truncated', states: missing })
        return odd
      }
  return null
}

/** Places in `a` and `b` of a longest common subsequence (Wagner & Fischer 1974), as the states themselves. */
function longestCommon(a: readonly number[], b: readonly number[]): number[] {
  const length = Array.from({ length: a.length + 1 }, () => new Int32Array(b.length + 1))
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      length[i][j] = a[i] === b[j] ? length[i + 1][j + 1] + 1 : Math.max(length[i + 1][j], length[i][j + 1])
  const common: number[] = []
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    if (a[i] === b[j]) {
      common.push(a[i++])
      j++
    } else if (length[i + 1][j] >= length[i][j + 1]) i++
    else j++
  }
  return common
}

/** What is left of a sequence when a subsequence of it is taken out. */
function without(sequence: readonly number[], taken: readonly number[]): number[] {
  let k = 0
  return sequence.filter((state) => {
    if (state !== taken[k]) return true
    k++
    return false
  })
}

function usualDurations(cycles: readonly Plain[], typical: readonly number[], segments: Segments) {
  const alike = cycles.filter((cycle) => cycle.measured && same(cycle.sequence, typical))
  if (alike.length < FEWEST_ALIKE) return null
  return typical.map((_, place) => {
    const sorted = Float64Array.from(alike, (cycle) => lasted(cycle, place, segments)).sort()
    const usual_s = quantileSorted(sorted, 0.5)
    const distances = sorted.map((duration) => Math.abs(duration - usual_s)).sort()
    return { usual_s, allowed_s: DEVIATIONS * MEDIAN_TO_DEVIATION * quantileSorted(distances, 0.5) }
  })
}

const lasted = (cycle: Plain, place: number, { times_s }: Segments): number =>
  times_s[cycle.from + place + 1] - times_s[cycle.from + place]

function oddDurations(cycle: Plain, { sequence, durations }: Usual, segments: Segments): Oddity[] {
  if (durations === null) return []
  return sequence.flatMap((state, place): Oddity[] => {
    const { usual_s, allowed_s } = durations[place]
    const lasted_s = lasted(cycle, place, segments)
    if (Math.abs(lasted_s - usual_s) <= allowed_s) return []
    if (lasted_s >= LONGER * usual_s) return [{ kind: 'longer', state, place, lasted_s, usual_s }]
    if (lasted_s <= SHORTER * usual_s) return [{ kind: 'shorter', state, place, lasted_s, usual_s }]
    return []
  })
}
