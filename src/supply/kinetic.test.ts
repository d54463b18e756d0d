import { createRequire } from 'node:module'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { availableAfter, chargeAfter, timeToEmpty, wellFactors } from './kinetic.ts'

// The library's own types do not compile under strict rules, so only what is used is declared.
const { Solver } = createRequire(import.meta.url)('odex') as {
  Solver: new (
    dimension: number,
  ) => {
    absoluteTolerance: number
    relativeTolerance: number
    solve(
      derivative: (x: number, y: number[]) => number[],
      from: number,
      start: number[],
      to: number,
    ): { y: number[] }
  }
}

const well = fc.record({
  c: fc.double({ min: 0.05, max: 1, noNaN: true }),
  k_per_s: fc.oneof(fc.constant(0), fc.double({ min: 1e-12, max: 0.1, noNaN: true })),
  charged: fc.double({ min: 0.05, max: 1, noNaN: true }),
  current_A: fc.double({ min: 1e-3, max: 10, noNaN: true }),
})

describe('kinetic wells', () => {
  it('move as the differential equations say (extrapolation method of the library odex)', () => {
    const c = 0.3
    const k_per_s = 0.002
    const current_A = 1.7
    // dy1/dt = -I + k'(c y2 - (1 - c) y1), dy2/dt = -k'(c y2 - (1 - c) y1): Manwell & McGowan (1993).
    const derivative = (_: number, [y1, y2]: number[]) => {
      const flow = k_per_s * (c * y2 - (1 - c) * y1)
      return [flow - current_A, -flow]
    }
    const solver = new Solver(2)
    solver.absoluteTolerance = 1e-11
    solver.relativeTolerance = 1e-11
    const [y1, y2] = solver.solve(derivative, 0, [2500, 5000], 900).y
    const step = wellFactors(900, k_per_s, c)
    expect(availableAfter(step, 2500, 7500, current_A)).toBeCloseTo(y1, 6)
    expect(chargeAfter(step, 7500, current_A)).toBeCloseTo(y1 + y2, 6)
  })

  it('are an ideal cell at c = 1, and never refill at k = 0', () => {
    expect(availableAfter(wellFactors(100, 0.01, 1), 500, 500, 2)).toBeCloseTo(300, 12)
    expect(availableAfter(wellFactors(100, 0, 0.4), 200, 500, 1)).toBe(100)
    expect(chargeAfter(wellFactors(100, 0, 0.4), 500, 1)).toBe(400)
  })

  it('lose no digits at a tiny rate constant', () => {
    const step = wellFactors(1, 1e-14, 0.4)
    expect(availableAfter(step, 200, 500, 1)).toBeCloseTo(199, 10)
  })

  it('come to rest at equal heads', () => {
    expect(availableAfter(wellFactors(1e6, 0.01, 0.4), 10, 500, 0)).toBeCloseTo(0.4 * 500, 9)
  })
})

describe('time to empty', () => {
  it('ends on the floor, and not before', () => {
    fc.assert(
      fc.property(well, fc.double({ min: 0, max: 0.9, noNaN: true }), (cell, floor) => {
        const { c, k_per_s, charged, current_A } = cell
        const charge_C = 1000 * charged
        const available_C = c * charge_C
        const floor_C = floor * available_C
        const t = timeToEmpty(available_C, charge_C, current_A, k_per_s, c, floor_C)
        const at = (s: number) => availableAfter(wellFactors(s, k_per_s, c), available_C, charge_C, current_A)
        expect(Math.abs(at(t) - floor_C)).toBeLessThan(1e-8)
        expect(at(0.999 * t)).toBeGreaterThan(floor_C)
      }),
    )
  })

  it('is charge over current for an ideal cell', () => {
    expect(timeToEmpty(1800, 1800, 0.025, 0, 1)).toBeCloseTo(72000, 8)
  })

  it('is 0 at the floor and never without a discharge', () => {
    expect(timeToEmpty(0, 500, 1, 0.01, 0.4)).toBe(0)
    expect(timeToEmpty(100, 500, 1, 0.01, 0.4, 100)).toBe(0)
    expect(timeToEmpty(100, 500, 0, 0.01, 0.4)).toBe(Infinity)
    expect(timeToEmpty(100, 500, -1, 0.01, 0.4)).toBe(Infinity)
  })
})
