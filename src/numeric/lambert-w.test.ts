import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lambertW0, lambertW0OfExp } from './lambert-w.ts'

describe("Lambert's W, principal branch", () => {
  it('is the inverse of w·e^w', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.99, max: 600, noNaN: true }), (w) => {
        const x = w * Math.exp(w)
        // An error of one unit in x is worth (1 + w)/w of them in w.
        const slack = 4e-16 * (1 + Math.abs(w)) * (1 + 1 / (1 + w))
        return Math.abs(lambertW0(x) - w) <= 4 * slack
      }),
    )
  })
  it('has its ends where the definition puts them', () => {
    expect(lambertW0(-1 / Math.E)).toBeCloseTo(-1, 7)
    expect(lambertW0(0)).toBe(0)
    expect(lambertW0(Infinity)).toBe(Infinity)
    expect(() => lambertW0(-0.4)).toThrow(RangeError)
    expect(() => lambertW0(NaN)).toThrow(RangeError)
  })
  it('of an exponential solves w + ln w = y', () => {
    fc.assert(
      fc.property(fc.double({ min: -600, max: 1e6, noNaN: true }), (y) => {
        const w = lambertW0OfExp(y)
        return Math.abs(w + Math.log(w) - y) <= 1e-15 * (4 + 4 * Math.abs(y))
      }),
    )
  })
})
