import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitPanel } from './fit-panel.ts'
import { coldOpenCircuit_V, panelCell_C, parametersAt, usualCoefficients } from './panel.ts'
import { currentAt, maximumPower, openCircuit_V, shortCircuit_A, voltageAt } from './single-diode.ts'
import type { Panel } from './supply.ts'

/** A panel of 12 crystalline cells, 1 W: a scenario of our own. */
const sheet: Panel<number> = {
  openCircuit_V: 7.2,
  shortCircuit_A: 0.18,
  maximumPower_V: 6,
  maximumPower_A: 0.167,
  ...usualCoefficients('crystalline', 7.2),
}
const panel = fitPanel(sheet)

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const anySheet = fc
  .record({
    cells: fc.integer({ min: 1, max: 72 }),
    each: share(0.5, 0.72),
    Isc: share(1e-3, 10),
    v: share(0.62, 0.86),
  })
  .chain(({ cells, each, Isc, v }) =>
    share(0.62, 0.95).map(
      (i): Panel<number> => ({
        openCircuit_V: cells * each,
        shortCircuit_A: Isc,
        maximumPower_V: cells * each * v,
        maximumPower_A: Isc * i,
        ...usualCoefficients('crystalline', 7.2),
        cellsInSeries: cells,
      }),
    ),
  )

describe('single diode', () => {
  it('current at voltage and voltage at current are inverse, with and without losses', () => {
    const some = fc.record({
      photocurrent_A: share(1e-6, 10),
      saturation_A: share(1e-14, 1e-7),
      modifiedIdeality_V: share(0.02, 3),
      series_Ohm: fc.oneof(fc.constant(0), share(1e-6, 0.5)),
      shunt_S: fc.oneof(fc.constant(0), share(1e-12, 0.05)),
    })
    fc.assert(
      fc.property(some, share(-0.5, 0.999), (p, of) => {
        const current_A = p.photocurrent_A * of
        const voltage_V = voltageAt(p, current_A)
        const u = voltage_V + current_A * p.series_Ohm
        const slope_S =
          (p.saturation_A / p.modifiedIdeality_V) * Math.exp(u / p.modifiedIdeality_V) + p.shunt_S
        const slack = 1e-12 * p.photocurrent_A + 1e-14 * Math.abs(u) * slope_S
        return Math.abs(currentAt(p, voltage_V) - current_A) <= slack
      }),
    )
  })
  it('a panel without leakage refuses more than its photocurrent', () => {
    expect(() => voltageAt({ ...panel, shunt_S: 0 }, 1)).toThrow(RangeError)
  })
  it('nothing along the curve beats its maximum power', () => {
    const best = maximumPower(panel)
    for (let v = 0; v <= 7.2; v += 0.01)
      expect(v * currentAt(panel, v)).toBeLessThanOrEqual(best.power_W * (1 + 1e-14))
    expect(maximumPower(parametersAt(panel, 0, 25)).power_W).toBe(0)
  })
})

describe('fit', () => {
  it('gives back the four numbers and the temperature coefficient', () => {
    expect(shortCircuit_A(panel)).toBeCloseTo(0.18, 12)
    expect(openCircuit_V(panel)).toBeCloseTo(7.2, 12)
    const best = maximumPower(panel)
    expect(best.voltage_V).toBeCloseTo(6, 9)
    expect(best.current_A).toBeCloseTo(0.167, 9)
    const warm_V = openCircuit_V(parametersAt(panel, 1000, 35))
    expect(warm_V).toBeCloseTo(7.2 * (1 - 0.03), 9)
  })
  it('passes through the three points of any sheet it accepts, with physical parameters', () => {
    let accepted = 0
    fc.assert(
      fc.property(anySheet, (any) => {
        let p: ReturnType<typeof fitPanel>
        try {
          p = fitPanel(any)
        } catch (error) {
          return error instanceof RangeError
        }
        accepted++
        const near = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.abs(b)
        const physical = p.series_Ohm >= 0 && p.shunt_S >= 0 && p.saturation_A > 0 && p.photocurrent_A > 0
        return (
          physical &&
          near(shortCircuit_A(p), any.shortCircuit_A) &&
          near(openCircuit_V(p), any.openCircuit_V) &&
          near(currentAt(p, any.maximumPower_V), any.maximumPower_A)
        )
      }),
      { numRuns: 300 },
    )
    expect(accepted).toBeGreaterThan(200)
  })
  it.each([
    [{ maximumPower_V: 7.2 }, /voltage at maximum power 7.2 V is not below open circuit/],
    [{ maximumPower_A: 0.2 }, /current at maximum power 0.2 A is not below short circuit/],
    [{ maximumPower_V: 7.1, maximumPower_A: 0.179 }, /fill factor 0.981/],
    [{ maximumPower_V: 2 }, /below half of open circuit/],
    [{ maximumPower_A: 0.06, maximumPower_V: 7 }, /below half of short circuit/],
    [{ shortCircuit_A: -1 }, /short-circuit current -1 A is not above zero/],
    [{ openCircuit_V: Number.NaN }, /open-circuit voltage NaN V/],
    [{ cellsInSeries: 1 }, /7.20 V a cell/],
    [{ cellsInSeries: 1.5 }, /whole number/],
    [{ voltageCoefficient_per_K: 0.003 }, /voltage coefficient/],
    [{ currentCoefficient_per_K: 0.05 }, /current coefficient/],
    [{ maximumPower_V: 6.6, maximumPower_A: 0.176 }, /fill their curve/],
  ])('refuses %j', (change, message) => {
    expect(() => fitPanel({ ...sheet, ...change })).toThrow(message)
  })
  it('takes an amorphous panel with usual coefficients', () => {
    const usual = usualCoefficients('amorphous', 7)
    expect(usual.cellsInSeries).toBe(8)
    const four = { openCircuit_V: 7, shortCircuit_A: 0.05, maximumPower_V: 5, maximumPower_A: 0.04 }
    expect(maximumPower(fitPanel({ ...four, ...usual })).power_W).toBeCloseTo(0.2, 9)
  })
})

describe('light and temperature', () => {
  it('no light, no current; half the light, half the short-circuit current', () => {
    const dark = parametersAt(panel, 0, 10)
    expect(shortCircuit_A(dark)).toBeCloseTo(0, 15)
    expect(openCircuit_V(dark)).toBeCloseTo(0, 12)
    expect(shortCircuit_A(parametersAt(panel, 500, 25)) / 0.18).toBeCloseTo(0.5, 4)
    expect(() => parametersAt(panel, -1, 25)).toThrow(RangeError)
    expect(() => parametersAt(panel, 1, -120)).toThrow(RangeError)
  })
  it('the shunt leaks in proportion to light (De Soto, Klein & Beckman 2006, equation 12)', () => {
    const leak_A = (light_W_m2: number) => {
      const lit = parametersAt(panel, light_W_m2, 25)
      return currentAt(lit, 0) - currentAt(lit, 0.5)
    }
    expect(leak_A(100) / leak_A(1000)).toBeCloseTo(0.1, 3)
  })
  it('cold raises the open-circuit voltage about as its coefficient says', () => {
    const cold_V = coldOpenCircuit_V(panel, -40)
    expect(cold_V).toBeGreaterThan(8.3)
    expect(cold_V / (7.2 * (1 + 0.003 * 65))).toBeCloseTo(1, 1)
  })
  it('cells warm in proportion to light', () => {
    expect(panelCell_C(25, -5, 0)).toBe(-5)
    expect(panelCell_C(25, 10, 800)).toBe(35)
  })
})
