import { describe, expect, it } from 'vitest'
import { findCell } from './cell-catalogue.ts'
import { deliverable_C } from './deliverable.ts'
import { discharge } from './discharge.ts'
import { availableAfter, wellFactors } from './kinetic.ts'
import type { Cell } from './supply.ts'

const cell = (name: string): Cell => findCell(name)!

/** One well, 1 Ah, 3 V at empty to 4 V at full, 1 Ω whatever its state. */
const PLAIN: Cell = {
  ...cell('ideal'),
  capacity_C: 3600,
  wells: { c: 1, k_per_s: 0 },
  openCircuit_V: { x: [0, 1], y: [3, 4] },
  openCircuit_V_per_K: 0,
  resistance_Ohm: { x: [0, 1], y: [1, 1] },
  resistanceFactor: { x: [0, 20], y: [2, 1] },
  capacityFactor: { x: [0, 20], y: [0.8, 1] },
  cutOff_V: 0,
}

describe('deliverable_C', () => {
  it('is, for one well, what stands above the state at which the sag I·R meets the end (by hand)', () => {
    // 4 V − (1 − s)·1 V − 0.1 A·1 Ω = 3.4 V at s = 0.5.
    expect(deliverable_C(PLAIN, 0.1, 20, 0, 3.4)).toBeCloseTo(1800, 9)
    // At 0 °C the resistance is 2 Ω: s = 0.6 is the end, and what lies above it is 0.4 of 80 % of the charge.
    expect(deliverable_C(PLAIN, 0.1, 0, 0, 3.4)).toBeCloseTo(0.4 * 0.8 * 3600, 9)
  })

  it('is nothing where the full cell is below the end at once, and all where the end is never met', () => {
    expect(deliverable_C(PLAIN, 0.1, 20, 0, 3.95)).toBe(0)
    expect(deliverable_C(PLAIN, 0.1, 20, 0, 1)).toBeCloseTo(3600, 9)
    expect(deliverable_C(PLAIN, 0.1, 20, 0.25, 1)).toBeCloseTo(2700, 9)
  })

  it('of two wells ends where the available one meets its level (Manwell & McGowan 1993, y1)', () => {
    const two = { ...PLAIN, wells: { c: 0.3, k_per_s: 1e-4 } }
    const current_A = 1
    const out_C = deliverable_C(two, current_A, 20, 0, 0)
    const left_C = availableAfter(wellFactors(out_C / current_A, 1e-4, 0.3), 0.3 * 3600, 3600, current_A)
    expect(left_C).toBeCloseTo(0, 6)
    expect(out_C).toBeLessThan(3600)
  })

  it.each([
    ['LR6', 0.1, 20],
    ['LR6', 0.25, 0],
    ['FR6', 0.5, -10],
    ['CR2032', 0.002, 20],
    ['ER14505', 0.01, -20],
    ['HR6', 0.4, 5],
    ['Li-ion', 0.5, -10],
  ])('of %s at %f A and %i °C agrees with a discharge in fine steps', (name, current_A, temperature_C) => {
    const tested = discharge({
      cell: cell(name),
      pattern: [{ load: { kind: 'current', current_A }, duration_s: 1e9 }],
      temperature_C,
      end_V: 0,
      fade: 0.05,
      longest_s: 1e12,
    })
    const out_C = deliverable_C(cell(name), current_A, temperature_C, 0.05, cell(name).cutOff_V)
    // Self-discharge of some days is the difference.
    expect(Math.abs(out_C - tested.delivered_C)).toBeLessThan(2e-3 * cell(name).capacity_C)
  })

  it('refuses a current that is none', () => {
    expect(() => deliverable_C(PLAIN, 0, 20, 0, 3)).toThrow(/above zero/)
  })
})
