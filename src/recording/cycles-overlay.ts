/** All cycles on one time axis that begins with the wake, for drawing them over each other. */
import { quantileSorted } from '../numeric/quantile.ts'
import type { Cycles } from './cycles.ts'
import type { Segments } from './segments.ts'
import type { Samples } from './states-samples.ts'

export interface Overlay {
  /** Width of a column, in s; column c covers c·step_s … (c + 1)·step_s after the wake. */
  readonly step_s: number
  /** Which cycles are drawn, as indices into the list of cycles. */
  readonly cycles: readonly number[]
  /** One row a cycle, one value a column, in A: the mean of its samples; NaN where it has none. */
  readonly current_A: readonly Float32Array[]
  /** Over the cycles, per column; NaN where no cycle has a value. */
  readonly p10_A: Float32Array
  readonly median_A: Float32Array
  readonly p90_A: Float32Array
}

/** So much longer than the usual wake is shown. */
const ROOM = 1.25

/**
 * `columns` and `most` from 1 up (RangeError otherwise). Of more than `most` cycles, as many spread over the recording.
 * Columns count samples, so in an uneven recording they are columns of the usual interval. Null without cycles.
 */
export function overlayCycles(
  samples: Samples,
  segments: Segments,
  cycles: Cycles,
  columns = 400,
  most = 200,
): Overlay | null {
  if (!(columns >= 1 && most >= 1))
    throw new RangeError(`an overlay has columns and cycles, not ${columns} and ${most}`)
  const span_s = spanOfWakes(cycles)
  if (span_s === null) return null
  const perColumn = Math.max(span_s / samples.interval_s / columns, 1)
  const used = Math.ceil(span_s / samples.interval_s / perColumn)
  const count = cycles.list.length
  const shown = Math.min(count, most)
  const chosen = Array.from({ length: shown }, (_, k) => Math.floor((k * count) / shown))
  const current_A = chosen.map((k) => rowOf(samples, segments.starts[cycles.list[k].from], perColumn, used))
  const [p10_A, median_A, p90_A] = [0.1, 0.5, 0.9].map((p) => acrossRows(current_A, used, p))
  return { step_s: perColumn * samples.interval_s, cycles: chosen, current_A, p10_A, median_A, p90_A }
}

/** What a drawing of wakes shows from their first rise, in s; null without wakes. */
export function spanOfWakes({ list, work_s, period_s }: Cycles): number | null {
  if (list.length === 0) return null
  // Where none was measured whole, the longest shows what there is.
  const longest_s = work_s?.p95_s ?? list.reduce((most, cycle) => Math.max(most, cycle.work_s), 0)
  return Math.min(ROOM * longest_s, period_s?.median ?? Number.POSITIVE_INFINITY)
}

function rowOf(samples: Samples, start: number, perColumn: number, columns: number): Float32Array {
  const end = Math.min(start + Math.ceil(perColumn * columns), samples.count)
  const values = samples.read(start, end)
  const sums = new Float64Array(columns)
  const counts = new Int32Array(columns)
  for (let i = 0; i < values.length; i++) {
    const column = Math.min(Math.floor(i / perColumn), columns - 1)
    if (values[i] - values[i] !== 0) continue
    sums[column] += values[i]
    counts[column]++
  }
  return Float32Array.from(sums, (sum, column) => sum / counts[column])
}

function acrossRows(rows: readonly Float32Array[], columns: number, p: number): Float32Array {
  return Float32Array.from({ length: columns }, (_, column) => {
    const values = rows.map((row) => row[column]).filter(Number.isFinite)
    return values.length === 0
      ? Number.NaN
      : quantileSorted(
          values.sort((a, b) => a - b),
          p,
        )
  })
}
