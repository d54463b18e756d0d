/** Thrift tables as firmware holds them, and what they do in a device whose converter errs. Volts at the pack, seconds. */
import type { WakeRow } from '../outlook/plan.ts'

/** Indices into the allowed intervals, rising; row k + 1 holds below `below_V[k]`, falling. */
export interface Table {
  readonly intervals: readonly number[]
  readonly below_V: readonly number[]
}

/** What firmware reads: volts on a grid of `resolution_V`, cut off, all of one device out by the same offset. */
export interface Converter {
  readonly resolution_V: number
  /** Standard deviation of the offset from device to device. */
  readonly offset_V: number
}

/**
 * The rows in true volts. A reading is ⌊(v + offset) / resolution⌋ · resolution and thresholds lie on that grid, so
 * `reading < T` is `v < T − offset`, and `reading > T + h` is `v >= T − offset + h + resolution`: exact, no reading is drawn.
 */
export function asRead(
  { intervals, below_V }: Table,
  wakesPerStep: ArrayLike<number>,
  offset_V: number,
  hysteresis_V: number,
  resolution_V: number,
): WakeRow[] {
  return intervals.map((interval, row) => ({
    below_V: row === 0 ? Infinity : below_V[row - 1] - offset_V,
    hysteresis_V: row === 0 ? 0 : hysteresis_V + resolution_V,
    wakesPerStep: wakesPerStep[interval],
    pattern: null,
  }))
}

/** The same table has the same key. */
export const keyOf = ({ intervals, below_V }: Table): string => `${intervals.join()}|${below_V.join()}`

/** `volts` on the converter's grid. */
export const onGrid = (volts: number, resolution_V: number): number =>
  Number((Math.round(volts / resolution_V) * resolution_V).toFixed(6))
