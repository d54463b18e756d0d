import { describe, expect, it } from 'vitest'
import { deltaT_s, julianDay } from './julian-day.ts'

describe('terrestrial less universal time', () => {
  /** Observed, International Earth Rotation Service; from memory. */
  it.each([
    [1950, 29.1, 7],
    [1975, 45.5, 14],
    [1990, 56.9, 16],
    [2000, 63.8, 20],
    [2010, 66.1, 1],
    [2020, 69.4, 3],
  ])('in %d was %d s, the formula is within %d s', (year, observed_s, within_s) => {
    expect(Math.abs(deltaT_s(julianDay(Date.UTC(year, 0, 1))) - observed_s)).toBeLessThan(within_s)
  })
})
