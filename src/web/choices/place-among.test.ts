import { describe, expect, it } from 'vitest'
import { placeAmong } from './place-among.ts'

describe('the place of a value on an axis of equal steps', () => {
  const octaves = [1, 2, 4, 8]
  it('is that of a value of the axis', () => {
    expect(octaves.map((value) => placeAmong(octaves, value))).toEqual([0, 1, 2, 3])
  })
  it('lies between neighbours as their logarithms do', () => {
    expect(placeAmong(octaves, Math.SQRT2)).toBeCloseTo(0.5, 12)
    expect(placeAmong(octaves, 4 * 2 ** 0.25)).toBeCloseTo(2.25, 12)
  })
  it('reaches half a step past the ends and no further', () => {
    expect(placeAmong(octaves, 2 ** -0.4)).toBeCloseTo(-0.4, 12)
    expect(placeAmong(octaves, 8 * 2 ** 0.4)).toBeCloseTo(3.4, 12)
    expect(placeAmong(octaves, 2 ** -0.6)).toBeNull()
    expect(placeAmong(octaves, 8 * 2 ** 0.6)).toBeNull()
  })
  it('is none of no value, on no axis, and of another value where there is but one', () => {
    expect(placeAmong(octaves, null)).toBeNull()
    expect(placeAmong([], 1)).toBeNull()
    expect(placeAmong([3], 3)).toBe(0)
    expect(placeAmong([3], 3.1)).toBeNull()
  })
})
