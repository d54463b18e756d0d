import { describe, expect, it } from 'vitest'
import { sunPosition } from './sun-position.ts'
import { sunTimes } from './sun-times.ts'

const MIDSUMMER = { year: 2025, month: 6, day: 21 }
const MIDWINTER = { year: 2025, month: 12, day: 21 }

describe('sunTimes', () => {
  it('gives polar day and polar night as values', () => {
    expect(sunTimes(MIDSUMMER, 70, 25.8).kind).toBe('polar-day')
    expect(sunTimes(MIDWINTER, 70, 25.8).kind).toBe('polar-night')
    expect(sunTimes(MIDSUMMER, -70, 25.8).kind).toBe('polar-night')
    expect(sunTimes(MIDWINTER, -70, 25.8).kind).toBe('polar-day')
  })

  it('is finite and in order on every day of a year, from pole to pole', () => {
    for (const latitude of [-90, -78, -67, -45, 0, 23.4, 58, 66.6, 69, 90])
      for (let day = 1; day <= 365; day += 3) {
        const times = sunTimes({ year: 2027, month: 1, day }, latitude, 100)
        expect(Number.isFinite(times.transit_ms)).toBe(true)
        if (times.kind !== 'rises-and-sets') continue
        expect(times.rise_ms).toBeLessThan(times.transit_ms)
        expect(times.transit_ms).toBeLessThan(times.set_ms)
        expect(times.dayLength_h).toBeLessThan(24)
        expect(sunPosition(times.rise_ms, latitude, 100).elevation_deg).toBeCloseTo(-0.833, 1)
      }
  })

  it('turns from winter night to days to summer day once on the way through spring', () => {
    const kinds: string[] = []
    for (let day = 1; day <= 172; day++) {
      const { kind } = sunTimes({ year: 2026, month: 1, day }, 70, 25.8)
      if (kind !== kinds.at(-1)) kinds.push(kind)
    }
    expect(kinds).toEqual(['polar-night', 'rises-and-sets', 'polar-day'])
  })

  it('counts the day by local mean time, on both sides of the date line', () => {
    const transit = (longitude: number) =>
      sunTimes({ year: 2026, month: 3, day: 10 }, 10, longitude).transit_ms
    expect(new Date(transit(-179)).toISOString()).toMatch(/^2026-03-11T00:/)
    expect(new Date(transit(179)).toISOString()).toMatch(/^2026-03-10T00:/)
  })

  it('refuses a place off the globe', () => {
    expect(() => sunTimes(MIDSUMMER, 91, 0)).toThrow(/latitude .* 91/)
    expect(() => sunPosition(0, 0, 200)).toThrow(/longitude .* 200/)
    expect(() => sunPosition(Number.NaN, 0, 0)).toThrow(RangeError)
  })
})
