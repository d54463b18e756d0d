import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { RAD_PER_DEG, wrap180_deg } from './angle.ts'
import {
  dailyExtraterrestrial_J_m2,
  extraterrestrialNormal_W_m2,
  hourlyExtraterrestrial_J_m2,
} from './extraterrestrial.ts'
import { incidenceCosine, incidenceCosineAt } from './incidence.ts'
import { cosZenith, dayLength_h, hourAngle_deg, solarAzimuth_deg, sunsetHourAngle_deg } from './sun-angles.ts'
import { declination_deg, equationOfTime_min } from './sun-day.ts'
import { sunPosition } from './sun-position.ts'

/** Evenly spread; fast-check's own doubles are mostly next to zero. */
const degrees = (min: number, max: number) =>
  fc.integer({ min: 0, max: 100_000 }).map((i) => min + ((max - min) * i) / 100_000)

describe('the sun by day of the year', () => {
  it('stands within 0.65° (Spencer) and 1.2° (Cooper) of the accurate sun through four years', () => {
    for (let day = 0; day < 4 * 365; day += 5) {
      const noon_ms = Date.UTC(2025, 0, 1, 12) + day * 86_400_000
      const date = new Date(noon_ms)
      const dayOfYear =
        (Date.UTC(2025, date.getUTCMonth(), date.getUTCDate()) - Date.UTC(2025, 0, 0)) / 86_400_000
      const sun = sunPosition(noon_ms, 0, 0)
      expect(Math.abs(declination_deg(dayOfYear) - sun.declination_deg)).toBeLessThan(0.65)
      expect(Math.abs(declination_deg(dayOfYear, 'Cooper') - sun.declination_deg)).toBeLessThan(1.2)
      expect(Math.abs(equationOfTime_min(dayOfYear) - sun.equationOfTime_min)).toBeLessThan(1)
    }
  })
  it('refuses a day that is none', () => {
    for (const day of [0, 367, Number.NaN]) {
      expect(() => declination_deg(day)).toThrow(RangeError)
      expect(() => declination_deg(day, 'FAO-56')).toThrow(String(day))
    }
  })
})

describe('hour angles', () => {
  it('clamps in the polar day and night', () => {
    expect(sunsetHourAngle_deg(80, 20)).toBe(180)
    expect(sunsetHourAngle_deg(80, -20)).toBe(0)
    expect(dayLength_h(-90, -1)).toBe(24)
    expect(dayLength_h(0, 23)).toBeCloseTo(12, 12)
    expect(hourAngle_deg(15)).toBe(45)
  })
  it('has the sun in the east before noon, in the south or north at noon by hemisphere', () => {
    expect(solarAzimuth_deg(50, 0, -90)).toBeCloseTo(90, 9)
    expect(solarAzimuth_deg(50, 0, 0)).toBeCloseTo(180, 9)
    expect(solarAzimuth_deg(-35, 0, 0)).toBeCloseTo(0, 9)
    expect(solarAzimuth_deg(-35, 0, 90)).toBeCloseTo(270, 9)
    expect(solarAzimuth_deg(-35, -20, -60)).toBeGreaterThan(90)
  })
  it('agrees with the accurate sun when given its declination and time, but for the parallax', () => {
    const time_ms = Date.UTC(2026, 3, 5, 9, 20)
    const sun = sunPosition(time_ms, -33, 12)
    const solar_h = 9 + 20 / 60 + 12 / 15 + sun.equationOfTime_min / 60
    const up = cosZenith(-33, sun.declination_deg, hourAngle_deg(solar_h))
    expect(Math.asin(up) / RAD_PER_DEG).toBeCloseTo(sun.elevation_deg, 2)
    expect(solarAzimuth_deg(-33, sun.declination_deg, hourAngle_deg(solar_h))).toBeCloseTo(sun.azimuth_deg, 1)
  })
})

describe('incidence', () => {
  it('is the same by both ways, any orientation, both hemispheres', () => {
    fc.assert(
      fc.property(
        degrees(-89, 89),
        degrees(-23.45, 23.45),
        degrees(-180, 180),
        degrees(0, 180),
        degrees(0, 360),
        (latitude, declination, hourAngle, tilt, azimuth) => {
          const elevation = Math.asin(cosZenith(latitude, declination, hourAngle)) / RAD_PER_DEG
          const sunAzimuth = solarAzimuth_deg(latitude, declination, hourAngle)
          const direct = incidenceCosineAt(latitude, declination, hourAngle, tilt, azimuth)
          expect(incidenceCosine(elevation, sunAzimuth, tilt, azimuth)).toBeCloseTo(direct, 6)
          expect(Math.abs(direct)).toBeLessThanOrEqual(1 + 1e-12)
          // North and south mirrored: the same light half a year on, on a plane that faces the other way.
          const mirrored = incidenceCosineAt(-latitude, -declination, hourAngle, tilt, 180 - azimuth)
          expect(mirrored).toBeCloseTo(direct, 9)
        },
      ),
      { numRuns: 500, seed: 3 },
    )
  })
  it('of a flat plane is the zenith angle, of a plane turned to the sun 0, turned away 180', () => {
    expect(incidenceCosine(35, 200, 0, 77)).toBeCloseTo(Math.sin(35 * RAD_PER_DEG), 12)
    expect(incidenceCosine(35, 200, 55, 200)).toBeCloseTo(1, 12)
    expect(incidenceCosine(35, 200, 125, 20)).toBeCloseTo(-1, 12)
  })
})

describe('light above the air', () => {
  it('follows the true distance within 0.12 %, from 1361 W/m² at 1 au (Kopp & Lean 2011: 1360.8 ± 0.5)', () => {
    for (let day = 1; day <= 365; day += 4) {
      const { distance_au } = sunPosition(Date.UTC(2025, 0, day, 12), 0, 0)
      const at1au_W_m2 = extraterrestrialNormal_W_m2(day) * distance_au ** 2
      expect(Math.abs(at1au_W_m2 / 1360.8 - 1)).toBeLessThan(0.0012)
    }
  })
  it('of the hours adds up to that of the day', () => {
    for (const latitude of [-80, -38, 0, 43, 70, 90])
      for (const day of [1, 80, 172, 355]) {
        const delta = declination_deg(day)
        let sum = 0
        for (let hour = 0; hour < 24; hour++)
          sum += hourlyExtraterrestrial_J_m2(
            latitude,
            delta,
            hourAngle_deg(hour),
            hourAngle_deg(hour + 1),
            1361,
          )
        const whole = hourlyExtraterrestrial_J_m2(latitude, delta, -180, 180, 1361)
        expect(sum).toBeCloseTo(whole, 0)
      }
  })
  it('is none in the polar night and never negative', () => {
    expect(dailyExtraterrestrial_J_m2(80, 355)).toBe(0)
    for (let day = 1; day <= 366; day += 7)
      for (const latitude of [-90, -66, 66, 90])
        expect(dailyExtraterrestrial_J_m2(latitude, day)).toBeGreaterThanOrEqual(0)
  })
})

it('wraps angles', () => {
  expect([-190, -180, 180, 190, 540].map(wrap180_deg)).toEqual([170, -180, -180, -170, -180])
})
