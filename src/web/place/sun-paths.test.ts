import { Body, Equator, Horizon, Observer } from 'astronomy-engine'
import { describe, expect, test } from 'vitest'
import { sunHours, sunPaths } from './sun-paths.ts'

const FJORD = { latitude_deg: 58.3, longitude_deg: 6.6, zone_h: 1 }

describe('sun paths', () => {
  test('stand where an astronomical library has the sun', () => {
    const observer = new Observer(58.3, 6.6, 0)
    for (const { month, points } of sunPaths(FJORD, 2025))
      for (const { hour, azimuth_deg, elevation_deg } of points.filter(({ hour: h }) => h % 3 === 0)) {
        if (elevation_deg < 1) continue
        const time = new Date(Date.UTC(2025, month, 21) + (hour - 1) * 3_600_000)
        const { ra, dec } = Equator(Body.Sun, time, observer, true, true)
        const seen = Horizon(time, observer, ra, dec, 'normal')
        expect(elevation_deg).toBeCloseTo(seen.altitude, 1)
        expect(azimuth_deg).toBeCloseTo(seen.azimuth, 1)
      }
  })

  test('at the solstices noon is 90° − latitude ± 23.44°, but for refraction', () => {
    const paths = sunPaths(FJORD, 2025)
    const noon = (month: number) => Math.max(...paths[month].points.map(({ elevation_deg }) => elevation_deg))
    expect(noon(5)).toBeCloseTo(90 - 58.3 + 23.44, 0)
    expect(noon(11)).toBeCloseTo(90 - 58.3 - 23.44, 0)
  })

  test('a wall all round takes the hours below it; polar night has none', () => {
    const [, , , , , june, , , , , , december] = sunPaths(FJORD, 2025)
    const wall = [{ azimuth_deg: 0, elevation_deg: 20 }]
    expect(sunHours(december, wall).seen_h).toBe(0)
    expect(sunHours(june, wall).seen_h).toBeLessThan(sunHours(june, []).seen_h)
    const [january] = sunPaths({ latitude_deg: 80, longitude_deg: 0, zone_h: 0 }, 2025)
    expect(sunHours(january, [])).toEqual({ free_h: 0, seen_h: 0 })
  })
})
