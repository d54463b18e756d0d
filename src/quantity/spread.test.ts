import { describe, expect, it } from 'vitest'
import { normalCdf, normalDensity } from '../numeric/normal.ts'
import { best, meanOf, quantileOf, standardUncertainty } from './spread.ts'
import type { Uncertain } from './uncertain.ts'

const LAWS: Uncertain[] = [
  { kind: 'exact', value: 3 },
  { kind: 'normal', value: 3, u: 0.5 },
  { kind: 'uniform', low: -2, high: 5 },
  { kind: 'below', limit: 4 },
  { kind: 'skewed', typical: 4, p5: 2, p95: 9 },
  { kind: 'skewed', typical: 4, p5: 3.9, p95: 20 },
  { kind: 'skewed', typical: 0, p5: -2, p95: 9 },
  { kind: 'skewed', typical: -4, p5: -20, p95: -3 },
]

/** E[g(X)] by Simpson's rule over the standard normal score, each side of the median apart. */
function expectation(law: Uncertain, g: (x: number) => number): number {
  const steps = 4000
  let sum = 0
  for (const [from, to] of [
    [-8, -1e-12],
    [1e-12, 8],
  ]) {
    const h = (to - from) / steps
    for (let i = 0; i <= steps; i++) {
      const z = from + i * h
      const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2
      sum += (weight * h * g(quantileOf(law, normalCdf(z))) * normalDensity(z)) / 3
    }
  }
  return sum
}

describe('an uncertain number', () => {
  it.each(LAWS)('%j: closed forms agree with numerical integration', (law) => {
    const mean = expectation(law, (x) => x)
    const variance = expectation(law, (x) => (x - mean) ** 2)
    expect(meanOf(law)).toBeCloseTo(mean, 7)
    expect(standardUncertainty(law)).toBeCloseTo(Math.sqrt(variance), 6)
  })

  it('has the quantiles that were written', () => {
    for (const law of LAWS)
      if (law.kind === 'skewed') {
        expect(quantileOf(law, 0.05)).toBeCloseTo(law.p5, 12)
        expect(quantileOf(law, 0.5)).toBeCloseTo(law.typical, 12)
        expect(quantileOf(law, 0.95)).toBeCloseTo(law.p95, 12)
      }
    expect(quantileOf({ kind: 'uniform', low: -2, high: 6 }, 0.25)).toBe(0)
    expect(quantileOf({ kind: 'below', limit: 4 }, 0.25)).toBe(1)
    // Table of the normal law: 97.5 % lies at 1.95996.
    expect(quantileOf({ kind: 'normal', value: 1, u: 2 }, 0.975)).toBeCloseTo(1 + 2 * 1.959963984540054, 12)
  })

  it('rises with probability, and stays positive where its ends are', () => {
    for (const law of LAWS.slice(1)) {
      const values = [1e-9, 0.01, 0.3, 0.5, 0.7, 0.99, 1 - 1e-9].map((p) => quantileOf(law, p))
      expect([...values].sort((a, b) => a - b)).toEqual(values)
    }
    expect(quantileOf({ kind: 'skewed', typical: 4, p5: 0.1, p95: 9 }, 1e-12)).toBeGreaterThan(0)
  })

  it('is best told by its median, or the middle', () => {
    expect(LAWS.map(best)).toEqual([3, 3, 1.5, 2, 4, 4, 0, -4])
  })

  it('has no quantile at 0 and 1', () => {
    expect(() => quantileOf(LAWS[1], 0)).toThrow(RangeError)
    expect(() => quantileOf(LAWS[1], 1)).toThrow(RangeError)
  })
})
