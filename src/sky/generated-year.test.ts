import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { DAYS } from './calendar.ts'
import { climateFromYear } from './climate-fit.ts'
import { dayShapes } from './day-shape.ts'
import { dailyExtraterrestrial_J_m2, extraterrestrialNormal_W_m2 } from './extraterrestrial.ts'
import { generateYear, writeDay } from './generated-year.ts'
import { prepareGenerator } from './generator.ts'
import type { Climate, WeatherYear } from './place.ts'

const SITE = { title: 'made up', latitude_deg: 58, longitude_deg: 14, elevation_m: 100, zone_h: 1 }
const CLIMATE: Climate = {
  clearness: [0.38, 0.42, 0.46, 0.48, 0.5, 0.5, 0.5, 0.48, 0.46, 0.42, 0.4, 0.38],
  temperature_C: [-3, -3, 0, 5, 11, 15, 17, 16, 12, 7, 3, -1],
  dailyRange_K: [4, 5, 7, 8, 9, 9, 8, 8, 7, 5, 4, 4],
  floor: 0.1,
  persistence: 0.35,
  dailyDeviation_K: 3.5,
  temperaturePersistence: 0.7,
}

const blank = (site: typeof SITE, steps: number): WeatherYear => ({
  ...site,
  global_W_m2: new Float64Array(DAYS * steps),
  beamNormal_W_m2: new Float64Array(DAYS * steps),
  diffuse_W_m2: new Float64Array(DAYS * steps),
  temperature_C: new Float64Array(DAYS * steps),
})

describe('a day spread over its hours', () => {
  const latitude = fc.double({ min: -89, max: 89, noNaN: true })
  it.each([1, 6])('keeps its light, and no interval outshines the sun (%i an hour)', (stepsPerHour) => {
    const steps = 24 * stepsPerHour
    fc.assert(
      fc.property(latitude, fc.double({ min: 0.02, max: 0.83, noNaN: true }), (latitude_deg, clearness) => {
        const site = { ...SITE, latitude_deg }
        const shapes = dayShapes(site, stepsPerHour)
        const year = blank(site, steps)
        for (let day = 0; day < DAYS; day += 13) {
          writeDay(year, shapes, day, { clearness, meanTemperature_C: 7, range_K: 10 })
          let sum = 0
          let warmest = -99
          let coldest = 99
          let warmth = 0
          for (let i = day * steps; i < (day + 1) * steps; i++) {
            const above = shapes.sky.horizontal_W_m2[i]
            expect(year.global_W_m2[i]).toBeLessThanOrEqual(above * (1 + 1e-12))
            expect(year.beamNormal_W_m2[i]).toBeLessThanOrEqual(extraterrestrialNormal_W_m2(day + 1))
            const parts = year.diffuse_W_m2[i] + year.beamNormal_W_m2[i] * shapes.sky.cosZenith[i]
            expect(Math.abs(parts - year.global_W_m2[i])).toBeLessThan(1e-9)
            sum += (year.global_W_m2[i] * 3600) / stepsPerHour
            warmest = Math.max(warmest, year.temperature_C[i])
            coldest = Math.min(coldest, year.temperature_C[i])
            warmth += year.temperature_C[i] / steps
          }
          const asked = clearness * dailyExtraterrestrial_J_m2(latitude_deg, day + 1)
          expect(Math.abs(sum - asked)).toBeLessThanOrEqual(1e-9 * asked)
          expect(warmest - coldest).toBeGreaterThan(9.5)
          expect(warmest - coldest).toBeLessThanOrEqual(10)
          expect(Math.abs(warmth - 7)).toBeLessThan(0.15)
        }
      }),
      { seed: 1, numRuns: stepsPerHour === 1 ? 25 : 6 },
    )
  })
  it('is coldest about sunrise and warmest in mid-afternoon by the sun', () => {
    const shapes = dayShapes({ latitude_deg: 40, longitude_deg: 0, zone_h: 0 }, 6)
    const march = [...shapes.warmth.subarray(79 * 144, 80 * 144)] // equinox: sunrise at 6 by the sun
    expect(Math.abs(march.indexOf(Math.min(...march)) / 6 - 6)).toBeLessThan(0.4)
    expect(Math.abs(march.indexOf(Math.max(...march)) / 6 - 15)).toBeLessThan(0.4)
  })
})

describe('a climate fitted to generated years', () => {
  // What a year shows of floor and persistence is rough; the mean of many must come back as it went in.
  const generator = prepareGenerator(CLIMATE)
  const shapes = dayShapes(SITE, 1)
  const years = 60
  const fits = Array.from({ length: years }, (_, k) =>
    climateFromYear(generateYear(generator, SITE, shapes, stream(9, k, 0))),
  )
  const mean = (of: (climate: Climate) => number): number => fits.reduce((s, c) => s + of(c), 0) / years
  it.each([
    ['floor', (c: Climate) => c.floor, 0.1, 0.0012],
    ['persistence', (c: Climate) => c.persistence, 0.35, 0.03],
    ['daily deviation', (c: Climate) => c.dailyDeviation_K, 3.5, 0.15],
    ['persistence of temperature', (c: Climate) => c.temperaturePersistence, 0.7, 0.05],
    ['clearness of June', (c: Climate) => c.clearness[5], 0.5, 0.015],
    ['clearness of December', (c: Climate) => c.clearness[11], 0.38, 0.015],
    ['temperature of July', (c: Climate) => c.temperature_C[6], 17, 0.6],
    ['daily range of May', (c: Climate) => c.dailyRange_K[4], 9, 0.5],
  ] as const)('has its %s', (_, of, asked, tolerance) => {
    expect(Math.abs(mean(of) - asked)).toBeLessThan(tolerance)
  })
})
