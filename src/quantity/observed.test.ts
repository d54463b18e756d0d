import { describe, expect, it } from 'vitest'
import { observed } from './observed.ts'

describe('observed', () => {
  it('gives the mean, its standard uncertainty and n - 1 degrees of freedom', () => {
    const { estimates, correlation } = observed([[1, 2, 3, 4]])
    expect(estimates).toEqual([{ value: 2.5, u: expect.closeTo(Math.sqrt(5 / 3 / 4), 12), dof: 3 }])
    expect(correlation).toEqual([[1]])
  })

  it('correlates what rises together, and nothing with a constant', () => {
    const { correlation } = observed([
      [1, 2, 3],
      [10, 20, 30],
      [7, 7, 7],
    ])
    expect(correlation[0][1]).toBeCloseTo(1, 14)
    expect(correlation[2]).toEqual([0, 0, 1])
  })

  it('refuses one reading, none, and series of unequal length', () => {
    for (const series of [
      [[1]],
      [],
      [
        [1, 2],
        [1, 2, 3],
      ],
    ])
      expect(() => observed(series)).toThrow(RangeError)
  })
})
