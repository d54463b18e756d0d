import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bendtLawOf } from './clearness-bendt.ts'
import { hollandsHugetLawOf } from './clearness-hollands-huget.ts'
import { clearnessLaw } from './clearness-law.ts'
import { lagOneOfClearness, scoreLagOne, scoreTable } from './clearness-score.ts'

const names = fc.constantFrom('bendt', 'hollands-huget' as const)
const mean = fc.double({ min: 0.06, max: 0.8, noNaN: true })
const floor = fc.double({ min: 0, max: 0.05, noNaN: true })

describe('every daily law', () => {
  it('has exactly the mean asked for', () => {
    fc.assert(
      fc.property(names, mean, floor, (name, m, f) => {
        expect(clearnessLaw(name, m, f).mean).toBeCloseTo(m, 9)
      }),
      { seed: 1 },
    )
  })
  it('has a quantile function that undoes its distribution function', () => {
    const p = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true })
    fc.assert(
      fc.property(names, mean, floor, p, (name, m, f, share) => {
        const law = clearnessLaw(name, m, f)
        const k = law.quantile(share)
        expect(k).toBeGreaterThanOrEqual(law.low)
        expect(k).toBeLessThanOrEqual(law.high)
        expect(Math.abs(law.cdf(k) - share)).toBeLessThan(1e-8)
      }),
      { seed: 2 },
    )
  })
  it('rises from 0 to 1 and is flat beyond its ends', () => {
    for (const name of ['bendt', 'hollands-huget'] as const) {
      const law = clearnessLaw(name, 0.4, 0.05)
      expect([law.cdf(law.low - 0.1), law.cdf(law.low), law.cdf(law.high), law.cdf(2)]).toEqual([0, 0, 1, 1])
      expect([law.density(-0.1), law.density(2)]).toEqual([0, 0])
    }
  })
  it('refuses a mean that it cannot have', () => {
    expect(() => clearnessLaw('bendt', 0.05, 0.05)).toThrow(/0\.05/)
    expect(() => clearnessLaw('bendt', 0.9, 0.05)).toThrow(RangeError)
    expect(() => clearnessLaw('hollands-huget', 0.85, 0)).toThrow(/0\.85/)
  })
})

describe('where the closed forms cancel', () => {
  it('the bounded law with exponent 0 is the uniform law', () => {
    const law = bendtLawOf(0, 0.1, 0.7)
    expect(
      [law.mean, law.cdf(0.25), law.quantile(0.25), law.density(0.5)].map((x) => +x.toFixed(12)),
    ).toEqual([0.4, 0.25, 0.25, +(1 / 0.6).toFixed(12)])
  })
  it('Hollands & Huget with λ = 0 is the triangle: mean ku/3, F = 2t − t²', () => {
    const law = hollandsHugetLawOf(0)
    expect(law.mean).toBeCloseTo(0.864 / 3, 12)
    expect(law.cdf(0.432)).toBeCloseTo(0.75, 12)
  })
  it('series and closed form of Hollands & Huget meet', () => {
    const [below, above] = [0.9999999 / 0.864, 1.0000001 / 0.864].map((lambda) => hollandsHugetLawOf(lambda))
    expect(below.cdf(0.3)).toBeCloseTo(above.cdf(0.3), 7)
    expect(below.mean).toBeCloseTo(above.mean, 7)
  })
})

describe('the lag-one of scores', () => {
  it('gives clearness the one asked for, there and back', () => {
    const lagOne = fc.double({ min: -0.5, max: 0.9, noNaN: true })
    fc.assert(
      fc.property(names, fc.double({ min: 0.15, max: 0.75, noNaN: true }), lagOne, (name, m, asked) => {
        const table = scoreTable(clearnessLaw(name, m, 0.05))
        expect(lagOneOfClearness(table, scoreLagOne(table, asked))).toBeCloseTo(asked, 7)
      }),
      { seed: 3, numRuns: 60 },
    )
  })
})
