import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { curve, valueAt } from './curve.ts'
import { maximiseOn } from './golden.ts'
import { normalCdf, normalQuantile, normalQuantileFast } from './normal.ts'
import { quantileSorted } from './quantile.ts'
import { philox, stream } from './random.ts'
import { brent } from './root.ts'
import { compensatedSum } from './sum.ts'

describe('philox 4x32-10', () => {
  // Known answers distributed with the authors' own implementation; from memory.
  it.each([
    [
      [0, 0, 0, 0],
      [0, 0],
      [0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8],
    ],
    [
      [0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff],
      [0xffffffff, 0xffffffff],
      [0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd],
    ],
    [
      [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
      [0xa4093822, 0x299f31d0],
      [0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1],
    ],
  ])('counter %j under key %j', (counter, key, expected) => {
    const out = new Uint32Array(4)
    philox(Uint32Array.from(counter), key[0], key[1], out)
    expect([...out]).toEqual(expected)
  })
})

describe('streams', () => {
  it('are equal for equal arguments and differ for others', () => {
    const draw = (seed: number, path: number, purpose: number) => {
      const s = stream(seed, path, purpose)
      return Array.from({ length: 5 }, () => s.uniform())
    }
    expect(draw(7, 3, 1)).toEqual(draw(7, 3, 1))
    const others = [draw(7, 3, 1), draw(8, 3, 1), draw(7, 4, 1), draw(7, 3, 2), draw(7 + 2 ** 32, 3, 1)]
    expect(new Set(others.map(String)).size).toBe(5)
  })
  it('have the moments of the uniform and the normal law', () => {
    const s = stream(1, 0, 0)
    const n = 100_000
    const u = Array.from({ length: n }, () => s.uniform())
    const z = Array.from({ length: n }, () => s.normal())
    expect(Math.abs(compensatedSum(u) / n - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / n))
    expect(Math.abs(compensatedSum(z) / n)).toBeLessThan(4 / Math.sqrt(n))
    expect(Math.abs(compensatedSum(z.map((x) => x * x)) / n - 1)).toBeLessThan(4 * Math.sqrt(2 / n))
  })
  it('refuse a seed that is no whole number', () => {
    expect(() => stream(1.5, 0, 0)).toThrow(RangeError)
    expect(() => stream(1, -1, 0)).toThrow(RangeError)
  })
})

describe('normal law', () => {
  // Abramowitz & Stegun, table 26.1; and the usual two-sided points.
  it.each([
    [0, 0.5],
    [1, 0.841344746068543],
    [2, 0.97724986805182],
    [3, 0.99865010196837],
    [-4, 3.16712418331199e-5],
    [-6, 9.86587645037698e-10],
  ])('cdf(%d)', (z, p) => {
    expect(Math.abs(normalCdf(z) / p - 1)).toBeLessThan(1e-13)
  })
  it('quantile inverts cdf', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 13)
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true }), (p) => {
        const z = normalQuantile(p)
        return (
          Math.abs(normalCdf(z) - p) <= 1e-13 &&
          Math.abs(normalQuantileFast(p) - z) <= 1.2e-8 * (1 + Math.abs(z))
        )
      }),
    )
  })
})

describe('small kernels', () => {
  it('brent finds the root of cos x = x (Dottie number)', () => {
    expect(brent((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 12)
    expect(() => brent((x) => x * x + 1, -1, 1)).toThrow(RangeError)
  })
  it('golden section finds the peak of a parabola', () => {
    const { x, y } = maximiseOn((t) => 3 - (t - 0.7) ** 2, 0, 2)
    expect(x).toBeCloseTo(0.7, 6)
    expect(y).toBeCloseTo(3, 12)
  })
  it('compensated sum keeps what a plain sum loses', () => {
    expect(compensatedSum([1, 1e100, 1, -1e100])).toBe(2) // Neumaier's own example
  })
  it('quantile uses R-7', () => {
    expect(quantileSorted([1, 2, 3, 4], 0.25)).toBe(1.75) // as R prints quantile(1:4, .25)
    expect(() => quantileSorted([], 0.5)).toThrow(RangeError)
  })
  it('a curve is linear between its points, constant beyond', () => {
    const c = curve([0, 1, 3], [10, 20, 0])
    expect([-1, 0, 0.5, 1, 2, 3, 9].map((x) => valueAt(c, x))).toEqual([10, 10, 15, 20, 10, 0, 0])
    expect(() => curve([0, 0], [1, 2])).toThrow(RangeError)
  })
})
