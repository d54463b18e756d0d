import { describe, expect, it } from 'vitest'
import { describeCell } from './cell.contract.ts'
import { loaded_V, openCircuit_V, resistance_Ohm, usableState, wellHead } from './cell.ts'
import { cellNames, findCell } from './cell-catalogue.ts'
import { restedState, usableAt } from './cell-state.ts'

for (const name of cellNames) describeCell(findCell(name)!)

describe('state of a cold cell', () => {
  const lr6 = findCell('LR6')!

  it('looks deeper by the capacity factor, and comes back with warmth', () => {
    // f(0 °C) = 0.8: a quarter taken looks like 0.25 / 0.8.
    expect(usableState(lr6, 0.75, 20)).toBeCloseTo(0.75, 12)
    expect(usableState(lr6, 0.75, 0)).toBeCloseTo(1 - 0.25 / 0.8, 12)
    expect(usableState(lr6, 0.1, 0)).toBe(0)
    expect(usableState(lr6, 1, -30)).toBe(1)
    expect(usableState(lr6, 1.01, 20)).toBe(1)
  })

  it('is told by the head of the available well in what capacity is left', () => {
    expect(wellHead(lr6, 0.35 * 900, 1000, 0.1)).toBeCloseTo(1, 12)
    expect(wellHead(lr6, 0.35 * 450, 1000, 0.1)).toBeCloseTo(0.5, 12)
    expect(usableAt(lr6, restedState(lr6, 0.5, 0.1), 20)).toBeCloseTo(0.5, 12)
  })
})

describe('voltage and resistance', () => {
  const vrla = findCell('VRLA')!

  it('follow temperature and age', () => {
    expect(openCircuit_V(vrla, 1, 20)).toBe(2.14)
    expect(openCircuit_V(vrla, 1, -20)).toBeCloseTo(2.14 - 40 * 0.0002, 12)
    expect(resistance_Ohm(vrla, 1, 20, 0)).toBe(0.029)
    expect(resistance_Ohm(vrla, 1, 20, vrla.resistanceAgeing)).toBeCloseTo(2 * 0.029, 12)
    expect(resistance_Ohm(vrla, 1, -20, 0)).toBeCloseTo(2.2 * 0.029, 12)
    expect(loaded_V(vrla, 1, 20, 0, 2)).toBeCloseTo(2.14 - 0.058, 12)
  })
})
