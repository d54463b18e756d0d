/** Cells in series and parallel as one cell that stands for all of them: every model of a cell then serves a pack. */
import type { Curve } from '../numeric/curve.ts'
import type { Cell, Pack } from './supply.ts'

const scaled = (curve: Curve, factor: number): Curve => ({ x: curve.x, y: curve.y.map((y) => y * factor) })

/**
 * The pack as a cell: voltages × series, resistance × series / parallel, the pack's own capacity of one cell ×
 * parallel. All cells of a pack are alike. Throws RangeError unless series and parallel are whole and at least 1.
 */
export function packAsCell(pack: Pack<number>): Cell {
  const { cell, series, parallel } = pack
  for (const [name, count] of Object.entries({ series, parallel }))
    if (!(Number.isInteger(count) && count >= 1))
      throw new RangeError(`cells in ${name} must be a whole number of at least 1: got ${count}`)
  return {
    ...cell,
    capacity_C: pack.capacity_C * parallel,
    openCircuit_V: scaled(cell.openCircuit_V, series),
    openCircuit_V_per_K: cell.openCircuit_V_per_K * series,
    resistance_Ohm: scaled(cell.resistance_Ohm, series / parallel),
    cutOff_V: cell.cutOff_V * series,
    charging: cell.charging && { ...cell.charging, full_V: cell.charging.full_V * series },
  }
}
