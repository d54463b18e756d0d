/** Where a discharge ends: the device's voltage decides, not the end that a data sheet rates its cell to. */
import { describe, expect, it } from 'vitest'
import { envelope, step } from '../../test/designs.ts'
import { findCell } from '../supply/cell-catalogue.ts'
import type { Cell } from '../supply/supply.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { compilePlan } from './compile.ts'
import { initialState } from './state.ts'
import { advance } from './step.ts'

/** Charge that two alkaline cells have given when a device that runs down to `at_V` goes down for good. */
function given_C(cell: Cell, at_V: number): number {
  const device = envelope({ steps: [step({ duration_s: 2, current_A: 0.25 })], rest_A: 20e-6 })
  const pack = { cell, series: 2, parallel: 1, capacity_C: cell.capacity_C, initial: 1, age_s: 0 }
  const design = { ...device, supply: { ...device.supply, pack, brownout: { at_V, restart_V: at_V } } }
  const plan = compilePlan(design, expectedWakes(design.wake, null, 3600), 3600)
  const state = initialState(plan)
  const dark = new Float64Array(24)
  const mild = new Float64Array(24).fill(20)
  while (!state.down) advance(plan, state, dark, mild, 0)
  return state.out_C
}

describe('the cut-off of a data sheet', () => {
  const lr6 = findCell('LR6')
  if (lr6 === null) throw new Error('LR6 is missing')

  it('ends no forecast: a device that bears less goes on, and takes more out', () => {
    expect(given_C({ ...lr6, cutOff_V: 1.1 }, 1.2)).toBe(given_C(lr6, 1.2))
    expect(given_C(lr6, 1.2)).toBeGreaterThan(given_C(lr6, 2 * lr6.cutOff_V))
  })

  it('ends one early only where the device itself needs more', () => {
    expect(given_C(lr6, 2.2)).toBeLessThan(given_C(lr6, 2 * lr6.cutOff_V))
  })
})
