import { describe, expect, it } from 'vitest'
import { RAD_PER_DEG } from './angle.ts'
import { horizonElevation_deg, isSunHidden, skyViewFactor } from './horizon.ts'

const RIDGE = [
  { azimuth_deg: 10, elevation_deg: 5 },
  { azimuth_deg: 200, elevation_deg: 20 },
]

/** The whole ring at one elevation. */
const ring = (elevation_deg: number) => [{ azimuth_deg: 0, elevation_deg }]

describe('horizon line', () => {
  it('is linear between points and closes over north', () => {
    expect(horizonElevation_deg(RIDGE, 10)).toBe(5)
    expect(horizonElevation_deg(RIDGE, 105)).toBe(12.5)
    expect(horizonElevation_deg(RIDGE, 285)).toBe(12.5)
    expect(horizonElevation_deg(RIDGE, 0)).toBeCloseTo(5 + (15 * 10) / 170, 12)
    expect(horizonElevation_deg(RIDGE, 360 + 105)).toBe(12.5)
    expect(horizonElevation_deg(RIDGE, -75)).toBe(12.5)
  })
  it('is 0 without points and level with one', () => {
    expect(horizonElevation_deg([], 123)).toBe(0)
    for (const azimuth of [0, 90, 359]) expect(horizonElevation_deg(ring(7), azimuth)).toBe(7)
  })
  it('takes a ring that is closed twice, at 0 and at 360', () => {
    const closed = [0, 180, 360].map((azimuth_deg) => ({
      azimuth_deg,
      elevation_deg: azimuth_deg === 180 ? 10 : 4,
    }))
    expect(horizonElevation_deg(closed, 0)).toBe(4)
    expect(horizonElevation_deg(closed, 359)).toBeCloseTo(4 + 6 / 180, 12)
  })
  it('hides a sun that is not above it', () => {
    expect(isSunHidden(RIDGE, 12, 105)).toBe(true)
    expect(isSunHidden(RIDGE, 13, 105)).toBe(false)
    expect(isSunHidden([], -0.1, 105)).toBe(true)
  })
})

describe('sky view', () => {
  it('of a free horizon is (1 + cos tilt)/2, any way the plane faces', () => {
    for (const tilt of [0, 12, 30, 60, 89, 90, 91, 120, 180])
      for (const azimuth of [0, 133, 270])
        expect(skyViewFactor([], tilt, azimuth)).toBeCloseTo((1 + Math.cos(tilt * RAD_PER_DEG)) / 2, 5)
  })
  it('of a flat plane in a bowl of elevation h is cos² h (exact)', () => {
    for (const h of [0, 5, 30, 60, 90])
      expect(skyViewFactor(ring(h), 0, 0)).toBeCloseTo(Math.cos(h * RAD_PER_DEG) ** 2, 12)
  })
  it('of an upright plane in a bowl of elevation h is ½ - (h + sin h cos h)/π (exact)', () => {
    for (const h of [0, 10, 45, 80]) {
      const rad = h * RAD_PER_DEG
      const exact = 0.5 - (rad + Math.sin(rad) * Math.cos(rad)) / Math.PI
      expect(skyViewFactor(ring(h), 90, 57)).toBeCloseTo(exact, 5)
    }
  })
  it('agrees with light drawn evenly over the dome', () => {
    // Midpoints of equal solid angle: 2000 elevations × 360 azimuths, over a 15° ridge in the south.
    const ridge = [90, 100, 260, 270].map((azimuth_deg) => ({
      azimuth_deg,
      elevation_deg: azimuth_deg === 100 || azimuth_deg === 260 ? 15 : 0,
    }))
    let sum = 0
    for (let i = 0; i < 2000; i++) {
      const sine = (i + 0.5) / 2000
      const elevation = Math.asin(sine)
      for (let azimuth = 0.5; azimuth < 360; azimuth++) {
        if (elevation / RAD_PER_DEG < horizonElevation_deg(ridge, azimuth)) continue
        const facing =
          sine * Math.cos(60 * RAD_PER_DEG) +
          Math.cos(elevation) * Math.sin(60 * RAD_PER_DEG) * Math.cos((azimuth - 160) * RAD_PER_DEG)
        sum += Math.max(facing, 0)
      }
    }
    expect(skyViewFactor(ridge, 60, 160)).toBeCloseTo((2 * sum) / (2000 * 360), 3)
  })
})
