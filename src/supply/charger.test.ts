import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { chargingPoint, mayCharge, operatingPoint, taperLimit_A, unlimitedCurrent_A } from './charger.ts'
import { fitPanel } from './fit-panel.ts'
import { parametersAt, usualCoefficients } from './panel.ts'
import { panelTable, tableCurrent, tableUse } from './panel-table.ts'
import { currentAt, maximumPower, openCircuit_V, shortCircuit_A } from './single-diode.ts'
import type { Charger } from './supply.ts'

const four = { openCircuit_V: 7.2, shortCircuit_A: 0.18, maximumPower_V: 6, maximumPower_A: 0.167 }
const panel = fitPanel({ ...four, ...usualCoefficients('crystalline', 7.2) })
const common = { quiescent_A: 5e-6, full_V: 4.2 }
const diode: Charger<number> = { kind: 'diode', drop_V: 0.3, ...common }
const linear: Charger<number> = { kind: 'linear', dropOut_V: 0.1, limit_A: 0.5, ...common }
const converter: Charger<number> = { kind: 'maximum-power', efficiency: 0.88, limit_A: 0.5, ...common }
const chargers = [diode, linear, converter]

describe('the operating point', () => {
  const bright = parametersAt(panel, 1000, 25)
  it('differs between the three kinds', () => {
    const [a, b, c] = chargers.map((charger) => operatingPoint(charger, bright, 3.7))
    expect(a.panel_V).toBeCloseTo(4, 12)
    expect(b.panel_V).toBeCloseTo(3.8, 9)
    expect(c.panel_V).toBeCloseTo(6, 9)
    for (const point of [a, b]) expect(point.cell_A).toBe(point.panel_A)
    expect(c.cell_A).toBeCloseTo((6 * 0.167 * 0.88) / 3.7, 9)
  })
  it('a converter wins where panel voltage is far above the pack, a drop where it is just above', () => {
    const into = (pack_V: number) => chargers.map((charger) => operatingPoint(charger, bright, pack_V).cell_A)
    const [diode37, linear37, converter37] = into(3.7)
    expect(converter37).toBeGreaterThan(1.25 * linear37)
    expect(linear37).toBeGreaterThan(diode37) // a little: less voltage lost in the pass element
    const [, linear58, converter58] = into(5.8)
    expect(linear58).toBeGreaterThan(converter58)
  })
  it('a warm panel in weak light no longer reaches the pack but through a converter', () => {
    const weak = parametersAt(panel, 20, 70)
    const pack_V = openCircuit_V(weak) + 0.1
    expect(operatingPoint(diode, weak, pack_V)).toEqual({
      panel_V: openCircuit_V(weak),
      panel_A: 0,
      cell_A: 0,
    })
    expect(operatingPoint(linear, weak, pack_V).cell_A).toBe(0)
    expect(operatingPoint(converter, weak, pack_V).cell_A).toBeGreaterThan(0)
  })
  it('limited, linear and converter let the panel rise; behind a diode the shunt burns the rest', () => {
    const [a, b, c] = chargers.map((charger) => operatingPoint(charger, bright, 3.7, 0.05))
    for (const point of [a, b, c]) expect(point.cell_A).toBeCloseTo(0.05, 12)
    expect(a.panel_A).toBeGreaterThan(0.17)
    expect(b.panel_A).toBeCloseTo(0.05, 12)
    expect(b.panel_V).toBeGreaterThan(6)
    expect(c.panel_V).toBeGreaterThan(6)
    expect(c.panel_V * c.panel_A * 0.88).toBeCloseTo(0.05 * 3.7, 12)
    const limited = operatingPoint({ ...linear, limit_A: 0.08 }, bright, 3.7)
    expect(limited.cell_A).toBe(0.08)
  })
  it('lies on the panel curve and never gains power', () => {
    const any = (min: number, max: number) => fc.double({ min, max, noNaN: true })
    const arbitrary = [
      fc.constantFrom(...chargers),
      any(0, 1400),
      any(-40, 90),
      any(0.5, 7),
      any(0, 0.4),
    ] as const
    fc.assert(
      fc.property(...arbitrary, (charger, light, warmth, pack_V, most_A) => {
        const lit = parametersAt(panel, light, warmth)
        const { panel_V, panel_A, cell_A } = operatingPoint(charger, lit, pack_V, most_A)
        const onCurve = Math.abs(currentAt(lit, panel_V) - panel_A) < 1e-8
        const gained_W = cell_A * pack_V - panel_V * panel_A
        return onCurve && gained_W < 1e-9 && cell_A >= 0 && cell_A <= most_A
      }),
      { numRuns: 500 },
    )
  })
})

describe('charging a real pack', () => {
  const bright = parametersAt(panel, 1000, 25)
  const pack = { open_V: 3.7, resistance_Ohm: 0.5, full_V: 4.2 }
  it('raises its terminals by current times resistance', () => {
    for (const charger of chargers) {
      const point = chargingPoint(charger, bright, pack)
      expect(point.phase).toBe('bulk')
      expect(point.pack_V).toBeCloseTo(3.7 + point.cell_A * 0.5, 9)
    }
    expect(chargingPoint(diode, bright, { ...pack, resistance_Ohm: 0 }).pack_V).toBe(3.7)
    expect(chargingPoint({ ...linear, limit_A: 0.1 }, bright, pack)).toMatchObject({ phase: 'limited' })
  })
  it('tapers exponentially at the full voltage', () => {
    // Open-circuit voltage rising by 1 V per 1000 C: dI/dt = −I/(R·1000 F), so I falls by e in 500 s.
    for (const charger of chargers) {
      let open_V = 4.15
      const at = () => chargingPoint(charger, bright, { ...pack, open_V })
      const first = at()
      expect(first.phase).toBe('taper')
      expect(first.pack_V).toBe(4.2)
      for (let s = 0; s < 500; s += 0.5) open_V += (at().cell_A * 0.5) / 1000
      expect(at().cell_A / first.cell_A).toBeCloseTo(Math.exp(-1), 3)
    }
  })
  it('gives nothing to a full pack nor in the dark', () => {
    for (const charger of chargers) {
      expect(chargingPoint(charger, bright, { ...pack, open_V: 4.2 })).toMatchObject({
        phase: 'full',
        cell_A: 0,
      })
      const dark = parametersAt(panel, 0, 10)
      expect(chargingPoint(charger, dark, pack)).toMatchObject({ phase: 'dark', cell_A: 0 })
    }
    expect(taperLimit_A({ ...pack, open_V: 4.3 })).toBe(0)
  })
  it('is locked out outside the charge window, and for a primary cell', () => {
    const window = { low_C: 0, high_C: 45, full_V: 4.2, coulombicEfficiency: 0.99, rateLimit_per_h: 0.5 }
    expect([-0.1, 0, 45, 45.1].map((t) => mayCharge(window, t))).toEqual([false, true, true, false])
    expect(mayCharge(null, 20)).toBe(false)
  })
})

describe('the table', () => {
  const low_V = 2.5
  const high_V = 6.5
  it.each(chargers)('of a $kind charger is within 0.3 % of the short-circuit current', (charger) => {
    const use = tableUse(charger)
    const table = panelTable(panel, use.holds, low_V, high_V + 1)
    const random = stream(3, 0, 0)
    for (let i = 0; i < 5000; i++) {
      const light = 1400 * random.uniform() ** 2
      const warmth = -40 + 130 * random.uniform()
      const pack_V = low_V + (high_V - low_V) * random.uniform()
      const exact_A = unlimitedCurrent_A(charger, parametersAt(panel, light, warmth), pack_V)
      const found_A = use.efficiency * tableCurrent(table, light, warmth, pack_V + use.drop_V)
      expect(Math.abs(found_A - exact_A)).toBeLessThan(0.003 * 0.18)
    }
  })
  it('is exact on its nodes and held at its edges', () => {
    const table = panelTable(panel, 'current', low_V, high_V)
    const node = [1400 / 4, table.low_C + 10 * table.step_K, low_V + 5 * table.step_V] as const
    const exact_A = currentAt(parametersAt(panel, node[0], node[1]), node[2])
    expect(tableCurrent(table, ...node)).toBeCloseTo(exact_A, 12)
    expect(tableCurrent(table, 2000, 25, 1)).toBe(tableCurrent(table, 1400, 25, low_V))
    expect(tableCurrent(table, 0, 25, 3)).toBe(0)
    expect(tableCurrent(table, 1000, 200, 9)).toBe(tableCurrent(table, 1000, 90, high_V))
  })
  it('refuses voltages that do not rise from above zero', () => {
    expect(() => panelTable(panel, 'current', 0, 4)).toThrow(RangeError)
    expect(() => panelTable(panel, 'current', 4, 4)).toThrow(RangeError)
  })
})

it('the panel of these tests is the one its sheet says', () => {
  expect(shortCircuit_A(panel)).toBeCloseTo(0.18, 12)
  expect(maximumPower(panel).power_W).toBeCloseTo(1.002, 9)
})
