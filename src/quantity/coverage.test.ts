import { describe, expect, it } from 'vitest'
import { coverageInterval } from './coverage.ts'

describe('coverageInterval', () => {
  it('is value ± 1.96 u at 95 % when u is known', () => {
    const { low, high, factor } = coverageInterval({ value: 10, u: 2, dof: Infinity }, 0.95)
    expect(factor).toBeCloseTo(1.959964, 6)
    expect([low, high]).toEqual([expect.closeTo(10 - 2 * factor, 12), expect.closeTo(10 + 2 * factor, 12)])
  })

  it('cuts degrees of freedom to a whole number, to the wide side', () => {
    const at = (dof: number) => coverageInterval({ value: 0, u: 1, dof }, 0.95).factor
    expect(at(16.7)).toBe(at(16))
    expect(at(16)).toBeGreaterThan(at(17))
  })

  it('refuses what has no interval', () => {
    expect(() => coverageInterval({ value: 0, u: 1, dof: 0.5 }, 0.95)).toThrow(/0\.5/)
    expect(() => coverageInterval({ value: 0, u: 1, dof: 5 }, 95)).toThrow(/not 95/)
  })
})
