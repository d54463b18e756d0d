/**
 * Charge, energy and statistics of any stretch of time, in a time that does not depend on its length: prefix sums over
 * whole blocks (double-double), and the samples of the two blocks at its ends one by one. A sample cut by an end of the
 * span counts with the part of its hold that lies inside.
 */
import { blockAtTime, placeInBlock, readBlock } from './access.ts'
import type { TimedBlock } from './block.ts'
import { Integrals } from './integrals.ts'
import { BLOCK_FIELDS, blockField, FIELD } from './layout.ts'
import type { Recording } from './recording.ts'
import { centredSquares } from './sums.ts'

export interface Span {
  readonly from_s: number
  readonly to_s: number
}

export interface SpanStatistics {
  readonly from_s: number
  readonly to_s: number
  readonly duration_s: number
  /** Time with a known current; the rest of the duration is missing, and no charge is made up for it. */
  readonly covered_s: number
  readonly missing_s: number
  readonly charge_C: number
  /**
   * Charge times a given voltage, or from the voltage column: then of `energyCovered_s` only. Null where there is neither,
   * and where the column has no voltage beside any current.
   */
  readonly energy_J: number | null
  /** Time in which both current and voltage are known; covered time where the voltage was given. */
  readonly energyCovered_s: number
  /** Of the covered time; null when nothing is covered. */
  readonly mean_A: number | null
  readonly rms_A: number | null
  /** Standard deviation over time, about the mean. */
  readonly deviation_A: number | null
  readonly min_A: number | null
  readonly max_A: number | null
  /** Largest magnitude over the RMS value. */
  readonly crest: number | null
}

/** Cuts a span to the recording; throws RangeError when nothing of it is left. */
export function clipSpan(recording: Recording, span: Span): Span {
  const end = recording.header.duration_s
  const from_s = Math.max(span.from_s, 0)
  const to_s = Math.min(span.to_s, end)
  if (!(from_s < to_s))
    throw new RangeError(`from ${span.from_s} s to ${span.to_s} s holds nothing of a recording of ${end} s`)
  return { from_s, to_s }
}

export const wholeSpan = (recording: Recording): Span => ({ from_s: 0, to_s: recording.header.duration_s })

/** Statistics of a span, cut to the recording. `voltage_V`: a constant voltage, in place of any column. */
export function spanStatistics(
  recording: Recording,
  wanted: Span = wholeSpan(recording),
  voltage_V: number | null = null,
): SpanStatistics {
  const span = clipSpan(recording, wanted)
  const tally = new Tally()
  const first = blockAtTime(recording, span.from_s)
  const last = blockAtTime(recording, span.to_s)
  tally.addBlock(readBlock(recording, first), span)
  if (last > first + 1) tally.addWhole(recording, first + 1, last)
  if (last > first) tally.addBlock(readBlock(recording, last), span)
  return tally.statistics(span, voltage_V)
}

/** The samples of a block that lie in a span: from … to − 1, of which the first and last may be cut. */
export function samplesWithin(block: TimedBlock, span: Span): { from: number; to: number } {
  return { from: placeInBlock(block, span.from_s), to: placeInBlock(block, span.to_s) + 1 }
}

/** How much of the hold of sample i lies in a span. */
export function heldWithin(block: TimedBlock, i: number, span: Span): number {
  const start = block.times_s === null ? block.start_s + i * block.interval_s : block.times_s[i]
  const hold = block.holds_s === null ? block.interval_s : block.holds_s[i]
  if (start >= span.from_s && start + hold <= span.to_s) return hold
  return Math.max(Math.min(start + hold, span.to_s) - Math.max(start, span.from_s), 0)
}

class Tally {
  private readonly sums = new Integrals()
  private min = Number.POSITIVE_INFINITY
  private max = Number.NEGATIVE_INFINITY

  addBlock(block: TimedBlock, span: Span): void {
    const { from, to } = samplesWithin(block, span)
    const innerFrom = heldWithin(block, from, span) === holdOf(block, from) ? from : from + 1
    const innerTo = heldWithin(block, to - 1, span) === holdOf(block, to - 1) ? to : to - 1
    if (innerFrom > from) this.sums.addPart(block, from, heldWithin(block, from, span))
    this.sums.add(block, innerFrom, innerTo)
    if (innerTo < to && innerTo >= innerFrom)
      this.sums.addPart(block, to - 1, heldWithin(block, to - 1, span))
    for (let i = from; i < to; i++) {
      const x = block.current_A[i]
      if (i === from || i === to - 1 ? heldWithin(block, i, span) > 0 : true) this.widen(x, x)
    }
  }

  /** Blocks from … to − 1 by the difference of their prefix sums. */
  addWhole(recording: Recording, from: number, to: number): void {
    this.sums.plus(prefix(recording, to).minus(prefix(recording, from)))
    for (let b = from; b < to; b++)
      this.widen(blockField(recording, b, 'min_A'), blockField(recording, b, 'max_A'))
  }

  private widen(low: number, high: number): void {
    if (low < this.min) this.min = low
    if (high > this.max) this.max = high
  }

  statistics(span: Span, given_V: number | null): SpanStatistics {
    const { charge_C, square_A2s, energy_J, covered_s, energyCovered_s } = this.sums
    const inColumn_J = energyCovered_s.value > 0 ? energy_J.value : null
    const duration_s = span.to_s - span.from_s
    const covered = covered_s.value
    const known = covered > 0
    const rms = known ? Math.sqrt(square_A2s.value / covered) : null
    const peak = Math.max(Math.abs(this.min), Math.abs(this.max))
    return {
      ...span,
      duration_s,
      covered_s: covered,
      missing_s: Math.max(duration_s - covered, 0),
      charge_C: charge_C.value,
      energy_J: given_V === null ? inColumn_J : charge_C.value * given_V,
      energyCovered_s: given_V === null ? energyCovered_s.value : covered,
      mean_A: known ? charge_C.value / covered : null,
      rms_A: rms,
      deviation_A: known ? Math.sqrt(centredSquares(charge_C, square_A2s, covered) / covered) : null,
      min_A: known ? this.min : null,
      max_A: known ? this.max : null,
      crest: rms === null || rms === 0 ? null : peak / rms,
    }
  }
}

function holdOf(block: TimedBlock, i: number): number {
  return block.holds_s === null ? block.interval_s : block.holds_s[i]
}

/** Sums over all blocks before this one. */
function prefix(recording: Recording, block: number): Integrals {
  const sums = new Integrals()
  const at = block * BLOCK_FIELDS + FIELD.charge_C
  const { table } = recording
  const all = [sums.charge_C, sums.square_A2s, sums.energy_J, sums.covered_s, sums.energyCovered_s]
  all.forEach((sum, k) => {
    sum.add(table[at + 2 * k], table[at + 2 * k + 1])
  })
  return sums
}
