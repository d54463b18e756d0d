import { describe, expect, it } from 'vitest'
import { erbsDaily, erbsHourly } from './diffuse-split.ts'
import { diffuseShare, hourlyShare } from './hourly-share.ts'

describe('shares of the hours', () => {
  it('are 0 while the sun is down and never negative, polar night and day included', () => {
    expect(hourlyShare(60, 61)).toBe(0)
    expect(diffuseShare(0, 0)).toBe(0)
    for (let sunset = 0; sunset <= 180; sunset += 5)
      for (let angle = -180; angle <= 180; angle += 7.5) {
        expect(hourlyShare(sunset, angle)).toBeGreaterThanOrEqual(0)
        expect(diffuseShare(sunset, angle)).toBeGreaterThanOrEqual(0)
      }
  })
  it('integrate over the day to 1: exactly for diffuse, within 5 % for global', () => {
    for (const sunset of [5, 30, 60, 90, 120, 180]) {
      const n = 20_000
      let diffuse = 0
      let global = 0
      for (let i = 0; i < n; i++) {
        const angle = sunset * ((2 * (i + 0.5)) / n - 1)
        diffuse += diffuseShare(sunset, angle) * ((2 * sunset) / 15 / n)
        global += hourlyShare(sunset, angle) * ((2 * sunset) / 15 / n)
      }
      expect(diffuse).toBeCloseTo(1, 6)
      expect(Math.abs(global - 1)).toBeLessThan(sunset >= 60 && sunset <= 150 ? 0.015 : 0.05)
    }
  })
})

describe('diffuse share', () => {
  it('stays between 0 and 1 and falls with clearness', () => {
    for (const split of [erbsHourly, (k: number) => erbsDaily(k, 60), (k: number) => erbsDaily(k, 100)]) {
      let last = 1.01
      for (let k = -0.1; k <= 1.2; k += 0.01) {
        const share = split(k)
        expect(share).toBeGreaterThan(0.1)
        expect(share).toBeLessThanOrEqual(1.01)
        if (k < 0.7) expect(share).toBeLessThanOrEqual(last + 0.01)
        last = share
      }
    }
  })
  it('joins its pieces as published: within 0.001, but 0.0152 for a clear day outside winter', () => {
    for (const [split, edge] of [
      [erbsHourly, 0.22],
      [erbsHourly, 0.8],
      [(k: number) => erbsDaily(k, 60), 0.715],
    ] as const)
      expect(Math.abs(split(edge - 1e-9) - split(edge + 1e-9))).toBeLessThan(0.001)
    expect(erbsDaily(0.722 - 1e-9, 100) - erbsDaily(0.722, 100)).toBeCloseTo(0.0152, 4)
  })
})
