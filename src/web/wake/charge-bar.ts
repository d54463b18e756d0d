/** A day's charge laid end to end, largest part first; each with what is not known of it. Coulombs a day. */
import type { BudgetPart } from '../../outlook/outlook.ts'

export interface LaidPart extends BudgetPart {
  readonly from_C: number
  readonly to_C: number
  readonly share: number
  /** Expanded uncertainty, coverage factor 2. */
  readonly expanded_C: number
}

const COVERAGE = 2

/** Parts that take nothing are left out. */
export function laidOut(budget: readonly BudgetPart[]): LaidPart[] {
  const parts = budget.filter((part) => part.charge_C > 0).sort((a, b) => b.charge_C - a.charge_C)
  const total_C = parts.reduce((sum, part) => sum + part.charge_C, 0)
  let from_C = 0
  return parts.map((part) => {
    const laid = {
      ...part,
      from_C,
      to_C: from_C + part.charge_C,
      share: part.charge_C / total_C,
      expanded_C: COVERAGE * part.u_C,
    }
    from_C = laid.to_C
    return laid
  })
}

/** Whiskers side by side where they do not meet, else in lanes one below the other: the lane of each, from 0. */
export function lanesOf(spans: readonly { readonly from: number; readonly to: number }[]): number[] {
  const ends: number[] = []
  return spans.map(({ from, to }) => {
    const free = ends.findIndex((end) => end < from)
    const lane = free < 0 ? ends.length : free
    ends[lane] = to
    return lane
  })
}
