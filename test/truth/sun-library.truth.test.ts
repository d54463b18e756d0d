/** The sun at random places and times beside the general-purpose library astronomy-engine (its own truncated VSOP87). */
import { Body, Equator, Horizon, Observer, SearchHourAngle, SearchRiseSet } from 'astronomy-engine'
import { describe, expect, it } from 'vitest'
import { stream } from '../../src/numeric/random.ts'
import { RAD_PER_DEG, wrap180_deg } from '../../src/sky/angle.ts'
import { sunPosition } from '../../src/sky/sun-position.ts'
import { sunTimes } from '../../src/sky/sun-times.ts'

/** Absolute. */
const TOLERANCE = {
  elevation_deg: 0.0015, // wanted 0.01; largest of 3000 0.0010: the library cuts its series earlier
  azimuth_deg: 0.0015, // times cos(elevation); largest of 3000 0.0010
  time_s: 2, // wanted 60; grows where the sun skims the horizon
} as const

const random = stream(20240921, 0, 7)
const between = (low: number, high: number) => low + (high - low) * random.uniform()
const from_ms = Date.UTC(2000, 0, 1)
const until_ms = Date.UTC(2060, 0, 1)

describe('against astronomy-engine', () => {
  it('400 positions, 2000 to 2060, pole to pole', () => {
    for (let i = 0; i < 400; i++) {
      const time_ms = Math.round(between(from_ms, until_ms))
      const place = new Observer(between(-90, 90), between(-180, 180), between(0, 4000))
      const date = new Date(time_ms)
      const equator = Equator(Body.Sun, date, place, true, true)
      const horizon = Horizon(date, place, equator.ra, equator.dec)
      const sun = sunPosition(time_ms, place.latitude, place.longitude, place.height)
      const aside = wrap180_deg(sun.azimuth_deg - horizon.azimuth) * Math.cos(sun.elevation_deg * RAD_PER_DEG)
      expect(Math.abs(sun.elevation_deg - horizon.altitude)).toBeLessThan(TOLERANCE.elevation_deg)
      expect(Math.abs(aside)).toBeLessThan(TOLERANCE.azimuth_deg)
    }
  })

  it('60 days up to 65° of latitude: rise, noon, set', () => {
    for (let i = 0; i < 60; i++) {
      const date = new Date(between(from_ms, until_ms))
      const place = new Observer(between(-65, 65), between(-180, 180), 0)
      const day = { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() }
      const times = sunTimes(day, place.latitude, place.longitude)
      if (times.kind !== 'rises-and-sets') throw new Error(`${date.toISOString()} at ${place.latitude}`)
      const midnight = new Date(times.transit_ms - 43_200_000)
      const noon = SearchHourAngle(Body.Sun, place, 0, midnight).time.date
      const rise = SearchRiseSet(Body.Sun, place, 1, midnight, 1)
      const set = SearchRiseSet(Body.Sun, place, -1, noon, 1)
      expect(Math.abs(times.transit_ms - noon.getTime()) / 1000).toBeLessThan(TOLERANCE.time_s)
      expect(Math.abs(times.rise_ms - Number(rise?.date)) / 1000).toBeLessThan(TOLERANCE.time_s)
      expect(Math.abs(times.set_ms - Number(set?.date)) / 1000).toBeLessThan(TOLERANCE.time_s)
    }
  })
})
