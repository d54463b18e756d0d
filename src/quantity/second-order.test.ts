import { describe, expect, it } from 'vitest'
import type { Estimate } from './estimate.ts'
import { secondOrderVariance } from './second-order.ts'

const known = (value: number, u: number): Estimate => ({ value, u, dof: Infinity })

describe('secondOrderVariance', () => {
  it('is 0 for a linear model', () => {
    expect(secondOrderVariance(([a, b]) => 3 * a - 2 * b, [known(1e3, 0.1), known(5, 2)])).toBeCloseTo(0, 6)
  })

  it('completes the variance of a product of independent inputs: u1² u2²', () => {
    expect(secondOrderVariance(([a, b]) => a * b, [known(7, 0.3), known(-4, 0.5)])).toBeCloseTo(
      0.3 ** 2 * 0.5 ** 2,
      10,
    )
  })

  it('completes the variance of a square of a normal input: 2 u⁴', () => {
    expect(secondOrderVariance(([a]) => a * a, [known(5, 0.4)])).toBeCloseTo(2 * 0.4 ** 4, 9)
  })

  it('gives the terms of order u⁴ of the cube of a normal input: 36 μ² u⁴', () => {
    // E[x⁶] − E[x³]² = 9 μ⁴ u² + 36 μ² u⁴ + 15 u⁶.
    const variance = secondOrderVariance(([a]) => a ** 3, [known(2, 0.1)])
    expect(variance / (36 * 4 * 0.1 ** 4)).toBeCloseTo(1, 4)
  })
})
