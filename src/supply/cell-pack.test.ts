import { describe, expect, it } from 'vitest'
import { loaded_V, openCircuit_V, resistance_Ohm } from './cell.ts'
import { cellOf } from './cell-catalogue.ts'
import { packAsCell } from './cell-pack.ts'
import type { Pack } from './supply.ts'

const cell = cellOf('VRLA', 3600)
const pack = (series: number, parallel: number): Pack<number> => {
  return { cell, series, parallel, capacity_C: 3500, initial: 1, age_s: 0 }
}

describe('pack', () => {
  it('adds voltages in series and capacities in parallel', () => {
    const whole = packAsCell(pack(6, 2))
    expect(whole.capacity_C).toBe(7000)
    expect(openCircuit_V(whole, 0.5, 0)).toBeCloseTo(6 * openCircuit_V(cell, 0.5, 0), 12)
    expect(resistance_Ohm(whole, 0.5, 0, 0.1)).toBeCloseTo(3 * resistance_Ohm(cell, 0.5, 0, 0.1), 12)
    expect(whole.cutOff_V).toBeCloseTo(6 * 1.75, 12)
    expect(whole.charging?.full_V).toBeCloseTo(6 * 2.4, 12)
  })

  it('under a current is its cells under their share of it', () => {
    const whole = loaded_V(packAsCell(pack(3, 4)), 0.7, -10, 0.05, 2)
    expect(whole).toBeCloseTo(3 * loaded_V(cell, 0.7, -10, 0.05, 2 / 4), 12)
  })

  it('leaves a primary cell without a charging window', () => {
    expect(packAsCell({ ...pack(2, 1), cell: { ...cell, charging: null } }).charging).toBeNull()
  })

  it('takes whole numbers of cells only', () => {
    expect(() => packAsCell(pack(0, 1))).toThrow(/series/)
    expect(() => packAsCell(pack(1, 1.5))).toThrow(/parallel/)
  })
})
