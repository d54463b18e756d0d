/** Against what data sheets state of such parts after days at their voltage; common practice, from memory. */
import { describe, expect, it } from 'vitest'
import { best, quantileOf } from '../quantity/spread.ts'
import { usualLeakage } from './capacitor-leakage.ts'
import { findCell } from './cell-catalogue.ts'

const at = (p: number, ...[capacitance_F, bears_V, across_V]: Parameters<typeof usualLeakage>) =>
  quantileOf(usualLeakage(capacitance_F, bears_V, across_V).leakage_A, p)

describe('the leakage of a capacitor that nobody measured', () => {
  it('of an electrolytic one lies one to two orders below the 0.01 CV of its data sheet', () => {
    const accepted_A = 0.01 * 1000e-6 * 3.6
    expect(usualLeakage(1000e-6, 6.3, 3.6).kind).toBe('electrolytic')
    expect(at(0.05, 1000e-6, 6.3, 3.6)).toBeCloseTo(accepted_A / 100, 12)
    expect(at(0.95, 1000e-6, 6.3, 3.6)).toBeCloseTo(accepted_A / 10, 12)
    expect(best(usualLeakage(1000e-6, 6.3, 3.6).leakage_A)).toBeLessThan(2e-6)
  })

  it('of a small one starts from the 3 µA that data sheets accept at least', () => {
    expect(at(0.95, 1e-6, 6.3, 3)).toBeCloseTo(0.3e-6, 12)
  })

  it('of a double-layer one is that of the supercapacitor in the catalogue, 1 µA a farad after many days, or a little more', () => {
    const cell = findCell('supercapacitor')
    if (cell?.charging === null || cell === null) throw new Error('no supercapacitor')
    const perYear_C = cell.selfDischarge_per_year * cell.capacity_C
    const catalogue_A_F = perYear_C / (365 * 86_400) / (cell.capacity_C / cell.charging.full_V)
    expect(at(0.05, 1, 2.7, 2.7)).toBeCloseTo(catalogue_A_F, 7)
    expect(at(0.95, 1, 2.7, 2.7)).toBeLessThan(5e-6)
  })

  it('of two cells in series is twice that a farad of the whole, as each has twice the farads', () => {
    expect(best(usualLeakage(0.5, 5.5, 3.6).leakage_A)).toBeCloseTo(
      best(usualLeakage(1, 2.7, 2.7).leakage_A),
      12,
    )
  })

  it('tells the two apart by capacitance, and between 10 and 100 mF by what it bears', () => {
    const kinds = [
      usualLeakage(4700e-6, 3, 3),
      usualLeakage(22e-3, 5.5, 3.6),
      usualLeakage(22e-3, 16, 3.6),
      usualLeakage(1, 16, 3.6),
    ].map(({ kind }) => kind)
    expect(kinds).toEqual(['electrolytic', 'double-layer', 'electrolytic', 'double-layer'])
  })
})
