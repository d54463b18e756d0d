import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coverageFactor, studentCdf, studentQuantile } from './student.ts'

describe('studentCdf', () => {
  it.each([-30, -2.5, -0.1, 0, 0.7, 3, 1000])('has its closed forms at t = %d', (t) => {
    // Abramowitz & Stegun 26.7.3 for one degree of freedom, 26.7.4 for two and four.
    expect(studentCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 13)
    const s2 = t / Math.sqrt(2 + t * t)
    expect(studentCdf(t, 2)).toBeCloseTo(0.5 + s2 / 2, 13)
    const s4 = t / Math.sqrt(4 + t * t)
    expect(studentCdf(t, 4)).toBeCloseTo(0.5 + (s4 / 2) * (1 + 2 / (4 + t * t)), 13)
  })

  it('keeps the digits of a far tail', () => {
    const t = -1e8
    expect(studentCdf(t, 1) / (1 / (Math.PI * 1e8))).toBeCloseTo(1, 12)
  })

  it('approaches the normal law as the density integrated in 40 digits does', () => {
    expect(studentCdf(-2, 2e6) / 0.022750199436903377).toBeCloseTo(1, 10)
    expect(studentCdf(-2, 1e9) / 0.022750132083156623).toBeCloseTo(1, 10)
  })

  it('rises with t and tends to the normal law', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -8, max: 8, noNaN: true }),
        fc.double({ min: 0.5, max: 90, noNaN: true }),
        (t, dof) => {
          expect(studentCdf(t + 0.01, dof)).toBeGreaterThan(studentCdf(t, dof))
          expect(studentCdf(t, 1e6)).toBeCloseTo(studentCdf(t, Infinity), 6)
        },
      ),
    )
  })
})

describe('studentQuantile', () => {
  it('undoes the distribution function, for real-valued degrees of freedom too', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-9, max: 0.999999, noNaN: true }),
        fc.double({ min: 0.4, max: 500, noNaN: true }),
        (p, dof) => {
          expect(studentCdf(studentQuantile(p, dof), dof) / p).toBeCloseTo(1, 9)
        },
      ),
    )
  })

  it('gives the factor of a coverage probability', () => {
    expect(coverageFactor(0.5, 1)).toBeCloseTo(1, 13) // quartiles of the Cauchy law
    expect(coverageFactor(0.95, Infinity)).toBeCloseTo(1.959963984540054, 12)
  })

  it('refuses degrees of freedom not above 0 and probabilities outside 0..1', () => {
    expect(() => studentQuantile(0.9, 0)).toThrow(/not at 0/)
    expect(() => studentQuantile(1, 5)).toThrow(RangeError)
    expect(() => studentCdf(1, Number.NaN)).toThrow(RangeError)
  })
})
