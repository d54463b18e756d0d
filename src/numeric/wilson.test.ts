import { describe, expect, it } from 'vitest'
import { wilson } from './wilson.ts'

describe('wilson', () => {
  // Newcombe (1998), Stat. Med. 17, 857–872, table I, method 3 (from memory; the formula gives the same digits).
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('gives the published interval of %d in %d', (successes, trials, low, high) => {
    const interval = wilson(successes, trials)
    expect(interval.low).toBeCloseTo(low, 4)
    expect(interval.high).toBeCloseTo(high, 4)
  })

  it('ends are where the score test of the share just fails', () => {
    const { low, high } = wilson(3.7, 11.2)
    const score = (p: number) => Math.abs(3.7 / 11.2 - p) / Math.sqrt((p * (1 - p)) / 11.2)
    expect(score(low)).toBeCloseTo(1.959963984540054, 12)
    expect(score(high)).toBeCloseTo(1.959963984540054, 12)
  })

  it('reaches exactly 0 and 1, and holds the share, at the ends', () => {
    for (const trials of [0.3, 1, 7, 49.3, 1e6]) {
      expect(wilson(0, trials).low).toBe(0)
      expect(wilson(trials, trials).high).toBe(1)
      expect(wilson(trials, trials).low).toBeGreaterThan(0)
    }
  })

  it('refuses no trials and more successes than trials', () => {
    expect(() => wilson(0, 0)).toThrow(/trials is 0/)
    expect(() => wilson(5, 4)).toThrow(/successes is 5.*0\.\.4/)
    expect(() => wilson(-1, 4)).toThrow(RangeError)
    expect(() => wilson(Number.NaN, 4)).toThrow(RangeError)
  })
})
