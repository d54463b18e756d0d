/** The frontier of cell, panel and interval: for each cell and interval the smallest panel that will do. */
import type { DesignSpace } from './common-runs.ts'
import { type Axes, type Sized, sizedOf } from './sizing.ts'
import type { Evidence } from './sizing-evidence.ts'
import { climbToPassing } from './sizing-search.ts'
import { inParallel, type Study } from './study.ts'

export interface Frontier {
  /** Places in the space, from the smallest cell and the shortest interval on. */
  readonly packs: readonly number[]
  readonly panels: readonly number[]
  readonly intervals: readonly number[]
  /** `cells[i][c]`: at interval i with cell c the smallest panel that passes; null where the largest does not. */
  readonly smallest: readonly (readonly (Sized | null)[])[]
  /** Cells that need a larger panel than a smaller cell does, which real self-discharge and cold can bring about. */
  readonly reversals: number
}

/** Nothing is taken from one cell to the next: a larger one loses more by itself, so need not be better. */
export function* frontierOf(space: DesignSpace, axes: Axes, evidence: Evidence): Study<Frontier> {
  const { packs, panels, intervals } = axes
  const byCell = yield* inParallel(packs.map((pack) => smallestPanels(space, axes, pack, evidence)))
  const smallest = intervals.map((_, i) => byCell.map((column) => column[i]))
  return { packs, panels, intervals, smallest, reversals: reversalsIn(smallest, panels) }
}

/**
 * Of one cell, for each interval. From the longest to the shortest: a panel too small for one interval is too small for
 * all that are shorter, so each search begins where the one before ended.
 */
function* smallestPanels(
  space: DesignSpace,
  { panels, intervals }: Axes,
  pack: number,
  evidence: Evidence,
): Study<(Sized | null)[]> {
  const found: (Sized | null)[] = intervals.map(() => null)
  let from = 0
  for (let i = intervals.length - 1; i >= 0; i--) {
    const picks = panels.map((panel) => ({ pack, panel, interval: intervals[i] }))
    const place = yield* climbToPassing(picks, from, evidence)
    if (place === null) break
    found[i] = sizedOf(space, picks[place], evidence)
    from = place
    // The shortest next: what survives it is sure to survive those between, and need not be played for them.
    if (i === intervals.length - 1) yield* evidence.judge({ ...picks[place], interval: intervals[0] })
  }
  return found
}

function reversalsIn(smallest: readonly (readonly (Sized | null)[])[], panels: readonly number[]): number {
  const place = (sized: Sized | null) => (sized === null ? panels.length : panels.indexOf(sized.pick.panel))
  let count = 0
  for (const row of smallest)
    for (let c = 1; c < row.length; c++) if (place(row[c]) > place(row[c - 1])) count++
  return count
}
