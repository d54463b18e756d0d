import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { inverseRegularisedBeta, regularisedBeta } from './beta.ts'
import { logBeta, logGamma } from './log-gamma.ts'

const shape = fc.double({ min: 0.05, max: 200, noNaN: true })
const share = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true })

describe('logGamma and logBeta', () => {
  it('give factorials and the half-integer values (Abramowitz & Stegun 6.1.5, 6.1.8)', () => {
    expect(logGamma(1)).toBeCloseTo(0, 14)
    expect(logGamma(11)).toBeCloseTo(Math.log(3_628_800), 13)
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 14)
    expect(logBeta(0.5, 0.5)).toBeCloseTo(Math.log(Math.PI), 13)
    expect(logBeta(1e9, 1)).toBeCloseTo(-Math.log(1e9), 13)
  })

  it('meet the recurrence B(a + 1, b) = B(a, b) a / (a + b)', () => {
    fc.assert(
      fc.property(shape, shape, (a, b) => {
        expect(logBeta(a + 1, b) - logBeta(a, b)).toBeCloseTo(Math.log(a / (a + b)), 11)
      }),
    )
  })

  it('refuse what has no logarithm', () => {
    expect(() => logGamma(0)).toThrow(RangeError)
    expect(() => logBeta(-1, 2)).toThrow(RangeError)
  })
})

describe('regularisedBeta', () => {
  it('is the binomial upper tail (Abramowitz & Stegun 26.5.24): 7 or more heads of 10', () => {
    expect(regularisedBeta(0.5, 7, 4)).toBeCloseTo((120 + 45 + 10 + 1) / 1024, 14)
  })

  it('is x^a for b = 1 and the arcsine law for a = b = 1/2', () => {
    fc.assert(
      fc.property(share, shape, (x, a) => {
        expect(regularisedBeta(x, a, 1)).toBeCloseTo(x ** a, 12)
        expect(regularisedBeta(x, 0.5, 0.5)).toBeCloseTo((2 / Math.PI) * Math.asin(Math.sqrt(x)), 12)
      }),
    )
  })

  it('meets I_x(a, b) = x I_x(a - 1, b) + (1 - x) I_x(a, b - 1) (Abramowitz & Stegun 26.5.10)', () => {
    fc.assert(
      fc.property(share, shape, shape, (x, less, fewer) => {
        const a = less + 1
        const b = fewer + 1
        const mixed = x * regularisedBeta(x, a - 1, b) + (1 - x) * regularisedBeta(x, a, b - 1)
        expect(regularisedBeta(x, a, b)).toBeCloseTo(mixed, 11)
      }),
    )
  })

  it('is undone by its inverse', () => {
    fc.assert(
      fc.property(share, shape, shape, (p, a, b) => {
        const x = inverseRegularisedBeta(p, a, b)
        fc.pre(x < 1 - 1e-5) // nearer to 1 neighbouring numbers lie too far apart to tell p
        expect(regularisedBeta(x, a, b)).toBeCloseTo(p, 8)
      }),
    )
  })

  it('refuses x outside 0..1 and shapes that are not above 0', () => {
    expect(() => regularisedBeta(1.1, 2, 2)).toThrow(/1\.1/)
    expect(() => regularisedBeta(0.5, 0, 2)).toThrow(RangeError)
  })
})
