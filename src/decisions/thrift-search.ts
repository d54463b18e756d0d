/**
 * Looks for the table that reports most among those that survive as wanted: a coarse look at tables of two rows, then the
 * best of all single changes (a threshold moved, an interval exchanged, a row put in or taken out) again and again, with
 * thresholds moved by less and less. Every table meets the same devices and the same weather, so small differences are real.
 * It finds a good table, not provably the best; the bound by foresight says how much more there could be.
 */
import type { TableOutcome } from './thrift-play.ts'
import { keyOf, onGrid, type Table } from './thrift-table.ts'

export interface SearchSpace {
  /** Number of allowed intervals, the shortest first. */
  readonly intervals: number
  /** Rows beside the first. */
  readonly mostRows: number
  /** Voltages between which thresholds may lie, and the grid on which they do. */
  readonly low_V: number
  readonly high_V: number
  readonly grid_V: number
  readonly mostTries: number
}

/** Null for a table that does not survive as wanted. */
export type TryAll = (tables: readonly Table[]) => Promise<(TableOutcome | null)[]>

export interface Tried {
  readonly table: Table
  readonly outcome: TableOutcome
}

export interface Found {
  /** One for each allowed interval. */
  readonly fixed: readonly (TableOutcome | null)[]
  readonly bestFixed: Tried | null
  readonly best: Tried | null
  readonly tries: number
}

const COARSE = 8
/** Thresholds are not set finer than this. */
const FINEST_V = 0.005

export async function searchTable(space: SearchSpace, tryAll: TryAll): Promise<Found> {
  const known = new Map<string, TableOutcome | null>()
  let best: Tried | null = null
  const look = async (tables: readonly Table[]): Promise<void> => {
    const fresh = tables.filter((table, i) => {
      const key = keyOf(table)
      return !known.has(key) && tables.findIndex((other) => keyOf(other) === key) === i
    })
    const affordable = fresh.slice(0, Math.max(space.mostTries - known.size, 0))
    const outcomes = await tryAll(affordable)
    for (const [i, table] of affordable.entries()) {
      const outcome = outcomes[i]
      known.set(keyOf(table), outcome)
      if (outcome !== null && (best === null || outcome.reports > best.outcome.reports))
        best = { table, outcome }
    }
  }

  const singles = Array.from({ length: space.intervals }, (_, i): Table => ({ intervals: [i], below_V: [] }))
  await look(singles)
  const fixed = singles.map((table) => known.get(keyOf(table)) ?? null)
  const bestFixed = best as Tried | null
  if (bestFixed !== null && bestFixed.table.intervals[0] > 0 && space.mostRows > 0) {
    await look(coarse(space, bestFixed.table.intervals[0]))
    let step_V = (space.high_V - space.low_V) / COARSE
    const finest_V = Math.max(FINEST_V, space.grid_V)
    while (known.size < space.mostTries) {
      const from = best as Tried | null
      if (from === null) break
      await look(neighbours(from.table, step_V, space))
      if (best !== from) continue
      if (step_V <= finest_V) break
      step_V = Math.max(step_V / 2, finest_V)
    }
  }
  return { fixed, bestFixed, best, tries: known.size }
}

/** Two rows: the shortest interval above a threshold, and one that can be borne for ever below it. */
function coarse({ intervals, low_V, high_V, grid_V }: SearchSpace, bestFixed: number): Table[] {
  const last = intervals - 1
  const slow = [...new Set([bestFixed, Math.ceil((bestFixed + last) / 2), last])]
  const thresholds = Array.from({ length: COARSE }, (_, i) =>
    onGrid(low_V + ((i + 0.5) / COARSE) * (high_V - low_V), grid_V),
  )
  return slow.flatMap((interval) =>
    thresholds.map((below) => ({ intervals: [0, interval], below_V: [below] })),
  )
}

function neighbours(table: Table, step_V: number, space: SearchSpace): Table[] {
  const { intervals, below_V } = table
  const { low_V, high_V, grid_V } = space
  const found: Table[] = []
  for (const [k, below] of below_V.entries())
    for (const moved of [below - step_V, below + step_V])
      found.push({ intervals, below_V: below_V.with(k, onGrid(moved, grid_V)) })
  for (const [k, interval] of intervals.entries())
    for (const other of [interval - 1, interval + 1])
      found.push({ intervals: intervals.with(k, other), below_V })
  for (let k = 1; k < intervals.length; k++)
    found.push({ intervals: intervals.toSpliced(k, 1), below_V: below_V.toSpliced(k - 1, 1) })
  if (below_V.length < space.mostRows)
    for (let k = 0; k < intervals.length; k++) {
      // A row between row k and the next, in the middle of both.
      const slower = k + 1 < intervals.length ? intervals[k + 1] : space.intervals
      const above_V = k === 0 ? high_V : below_V[k - 1]
      const under_V = k < below_V.length ? below_V[k] : low_V
      const between = Math.floor((intervals[k] + slower) / 2)
      const at_V = onGrid((above_V + under_V) / 2, grid_V)
      found.push({
        intervals: intervals.toSpliced(k + 1, 0, between),
        below_V: below_V.toSpliced(k, 0, at_V),
      })
    }
  return found.filter((candidate) => isTable(candidate, space))
}

function isTable({ intervals, below_V }: Table, space: SearchSpace): boolean {
  const slower = intervals.every((interval, k) => k === 0 || interval > intervals[k - 1])
  const lower = below_V.every((below, k) => k === 0 || below < below_V[k - 1])
  const within = below_V.every((below) => below >= space.low_V && below <= space.high_V)
  return slower && lower && within && intervals[0] >= 0 && intervals[intervals.length - 1] < space.intervals
}
