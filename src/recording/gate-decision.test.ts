import { describe, expect, it } from 'vitest'
import { decideBelow, decideBetween, decideUncertain, upperEnd } from './gate-decision.ts'

const normal = (value: number, u: number) => ({ value, u, dof: Infinity })

describe('a decision against one upper limit', () => {
  // JCGM 106:2012, 7.3.2, example (from memory): a Zener diode is to break down at −5.4 V or below; measured −5.47 V
  // with u = 0.05 V; p_c = Φ(1.4) = 0.92.
  it('gives the Zener diode of JCGM 106 a conformance probability of 92 %', () => {
    const { probability, verdict } = decideBelow(normal(-5.47, 0.05), -5.4)
    expect(probability).toBeCloseTo(0.92, 2)
    expect(verdict).toBe('cannot tell')
  })

  // The guard band of ISO 14253-1:2017 for 95 % is 1.645 u (its table, from memory; the normal quantile itself is certain).
  it.each([
    [1 - 1.65 * 0.1, 'pass'],
    [1 - 1.64 * 0.1, 'cannot tell'],
    [1 + 1.64 * 0.1, 'cannot tell'],
    [1 + 1.65 * 0.1, 'fail'],
  ])('of 1 finds %d ± 0.1 (one u) to %s', (value, verdict) => {
    expect(decideBelow(normal(value, 0.1), 1).verdict).toBe(verdict)
  })

  // Student's t, one-sided 95 % at 2 degrees: 2.920 (handbook tables).
  it('keeps further off where u comes from three values', () => {
    const at = (distance: number) => decideBelow({ value: 1 - distance, u: 1, dof: 2 }, 1).verdict
    expect(at(2.91)).toBe('cannot tell')
    expect(at(2.93)).toBe('pass')
  })

  it('is plain where nothing is uncertain', () => {
    expect(decideBelow(normal(1, 0), 1)).toEqual({ verdict: 'pass', probability: 1 })
    expect(decideBelow(normal(1.0001, 0), 1)).toEqual({ verdict: 'fail', probability: 0 })
  })

  it('passes what read zero where half a digit is within the limit, and never fails it', () => {
    const zero = { kind: 'below', limit: 0.005 } as const
    expect(decideUncertain(zero, 0.005)).toEqual({ verdict: 'pass', probability: 1 })
    for (const limit of [0.00499, 0.003, 20e-6, 0])
      expect(decideUncertain(zero, limit)).toEqual({ verdict: 'cannot tell', probability: null })
  })

  it('holds a bound that was put together from the same terms to be the bound', () => {
    const beside = 1e-7
    const kept = 5e-4 - beside
    expect(decideUncertain({ kind: 'below', limit: 5e-4 }, kept / 2 + beside + kept / 2).verdict).toBe('pass')
  })

  it('decides by the ends of what may lie anywhere between two', () => {
    const between = { kind: 'uniform', low: 2, high: 3 } as const
    expect(decideUncertain(between, 3).verdict).toBe('pass')
    expect(decideUncertain(between, 2.99).verdict).toBe('cannot tell')
    expect(decideUncertain(between, 2).verdict).toBe('cannot tell')
    expect(decideUncertain(between, 1.99).verdict).toBe('fail')
    // Each end as sure as it is: 1.645 u off for a pass (ISO 14253-1, as above).
    const ends = [normal(2, 0.1), normal(3, 0.2)] as const
    expect(decideBetween(...ends, 3.34).verdict).toBe('pass')
    expect(decideBetween(...ends, 3.32).verdict).toBe('cannot tell')
    expect(decideBetween(...ends, 1.84).verdict).toBe('cannot tell')
    expect(decideBetween(...ends, 1.83).verdict).toBe('fail')
  })
})

it('a limit is the upper end of a tolerance as written', () => {
  expect(upperEnd({ kind: 'exact', value: 3 })).toBe(3)
  expect(upperEnd({ kind: 'normal', value: 3, u: 0.5 })).toBe(4)
  expect(upperEnd({ kind: 'uniform', low: 1, high: 2 })).toBe(2)
  expect(upperEnd({ kind: 'below', limit: 5 })).toBe(5)
  expect(upperEnd({ kind: 'skewed', typical: 4, p5: 2, p95: 9 })).toBe(9)
})
