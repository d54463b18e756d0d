/** What rows of a CSV text are read into: columns with room to spare, and what was damaged. */
import type { ColumnPlan, RowPlan } from './csv-row-plan.ts'

export interface DamagedLine {
  /** Lines after the first of this text, from 0. */
  readonly line: number
  /** Samples read before it. */
  readonly sample: number
  readonly text: string
}

export interface Rows {
  count: number
  /** Lines gone through, whatever they held. */
  lines: number
  readonly time_s: Float64Array | null
  readonly current_A: Float32Array
  readonly voltage_V: Float32Array | null
  /** The first thousand of them, and how many there are. */
  readonly damaged: DamagedLine[]
  damagedLines: number
}

/** Room for the rows that a text of so many bytes can hold at most: a digit and an end of line each. */
export function rowsFor(
  bytes: number,
  plan: RowPlan,
  allocate: (bytes: number) => ArrayBufferLike = (size) => new ArrayBuffer(size),
): Rows {
  const most = Math.ceil(bytes / 2) + 1
  const has = (role: ColumnPlan['role']) => plan.columns.some((column) => column.role === role)
  return {
    count: 0,
    lines: 0,
    time_s: has('time') ? new Float64Array(allocate(8 * most)) : null,
    current_A: new Float32Array(allocate(4 * most)),
    voltage_V: has('voltage') ? new Float32Array(allocate(4 * most)) : null,
    damaged: [],
    damagedLines: 0,
  }
}
