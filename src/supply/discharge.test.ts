import { describe, expect, it } from 'vitest'
import { cellOf, findCell } from './cell-catalogue.ts'
import { discharge } from './discharge.ts'

const HOUR_S = 3600
const at20 = { temperature_C: 20, end_V: 0, fade: 0, longest_s: Infinity }
const load = { kind: 'current', current_A: 0.5 } as const

describe('discharge', () => {
  it('of a capacitor under a constant power takes C (V1² - V2²) / 2 P: 1 F, 5 V to 2 V at 10 mW, 1050 s', () => {
    const capacitor = {
      ...cellOf('ideal', 5),
      openCircuit_V: { x: [0, 1], y: [0, 5] },
      resistance_Ohm: { x: [0, 1], y: [0, 0] },
    }
    const pattern = [{ load: { kind: 'power', power_W: 0.01 } as const, duration_s: HOUR_S }]
    const run = discharge({ ...at20, cell: capacitor, pattern, end_V: 2 })
    expect(run.endedBy).toBe('voltage')
    expect(run.elapsed_s).toBeCloseTo(1050, 1)
    expect(run.delivered_J).toBeCloseTo(10.5, 3)
  })

  it('stops at once where the voltage under load is already too low', () => {
    const coin = findCell('CR2032')!
    const run = discharge({ ...at20, cell: coin, pattern: [{ load, duration_s: 1 }], end_V: 2 })
    expect(run).toMatchObject({ endedBy: 'voltage', elapsed_s: 0, delivered_C: 0 })
    const heavy = { kind: 'power', power_W: 5 } as const
    const collapsed = discharge({ ...at20, cell: coin, pattern: [{ load: heavy, duration_s: 1 }], end_V: 0 })
    expect(collapsed).toMatchObject({ endedBy: 'voltage', elapsed_s: 0 })
  })

  it('gives up after the longest time, rests included', () => {
    const pattern = [
      { load, duration_s: 60 },
      { load: null, duration_s: 540 },
    ]
    const run = discharge({ ...at20, cell: cellOf('ideal', 36000), pattern, longest_s: HOUR_S })
    expect(run.endedBy).toBe('time')
    expect(run.elapsed_s).toBeCloseTo(HOUR_S, 6)
    expect(run.underLoad_s).toBeCloseTo(360, 6)
  })

  it('gets more out of a cell that may rest between', () => {
    const lr6 = findCell('LR6')!
    const straight = discharge({ ...at20, cell: lr6, pattern: [{ load, duration_s: HOUR_S }], end_V: 0.9 })
    const rested = discharge({
      ...at20,
      cell: lr6,
      pattern: [
        { load, duration_s: 600 },
        { load: null, duration_s: 6 * HOUR_S },
      ],
      end_V: 0.9,
    })
    expect(rested.delivered_C).toBeGreaterThan(1.1 * straight.delivered_C)
  })

  it('gets less out of an old cell', () => {
    const cell = cellOf('Li-ion', 3600)
    const pattern = [{ load, duration_s: HOUR_S }]
    const young = discharge({ ...at20, cell, pattern })
    const old = discharge({ ...at20, cell, pattern, fade: 0.2 })
    expect(old.delivered_C).toBeLessThan(0.8 * young.delivered_C)
  })

  it('refuses a pattern that never loads the cell', () => {
    const cell = cellOf('ideal', 36)
    expect(() => discharge({ ...at20, cell, pattern: [] })).toThrow(RangeError)
    expect(() => discharge({ ...at20, cell, pattern: [{ load: null, duration_s: 1 }] })).toThrow(RangeError)
    expect(() => discharge({ ...at20, cell, pattern: [{ load, duration_s: 0 }] })).toThrow(RangeError)
  })
})
