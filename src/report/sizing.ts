/** What `size FILE` tells, as plain data: what `--json` prints, the terminal and the page show. */
import type { PartsChoice } from '../decisions/parts-choice.ts'
import type { SizingStudy } from '../decisions/sizing-study.ts'

export interface FrontierAxes {
  readonly capacities_C: readonly number[]
  /** Empty without a panel. */
  readonly powers_W: readonly number[]
  /** Holds null alone where wakes follow no interval. */
  readonly intervals_s: readonly (number | null)[]
  /** Which of them were asked for; the others are around the outpost's own. */
  readonly asked: readonly ('cells' | 'panels' | 'intervals')[]
}

export interface SizingReport {
  readonly file: string
  readonly title: string
  readonly seed: number
  readonly years: number
  /** Share of winters (with a panel) or of lives of `years` (without one). */
  readonly wanted: number
  readonly rechargeable: boolean
  /** Where it comes from, in words. */
  readonly weather: string
  /** Of the outpost as written; null where wakes follow no interval. */
  readonly interval_s: number | null
  readonly cellName: string
  readonly study: SizingStudy
  readonly frontier: FrontierAxes
  readonly parts: (PartsChoice & { readonly dimension: 'mass' | 'length' | 'count' }) | null
  readonly cautions: readonly string[]
}

/** Whether anything that was asked for suffices. */
export const hasAnswer = ({ study, parts }: SizingReport): boolean =>
  parts !== null
    ? parts.cheapest !== null
    : study.asItIs.ruling === 'passes' ||
      [study.smallestCell, study.smallestPanel, study.shortestInterval].some((sized) => sized !== null) ||
      study.frontier.smallest.some((row) => row.some((sized) => sized !== null))
