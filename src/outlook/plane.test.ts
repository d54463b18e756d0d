import { describe, expect, it } from 'vitest'
import { sunlit } from '../../test/designs.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { onPlane } from '../sky/tilted.ts'
import { dayOnPlane, lightOnPlane_W_m2, onGround, planeOf } from './plane.ts'

const DEG = 180 / Math.PI

describe('light on the plane from tables', () => {
  const place = { ...sunlit.place, horizon: [] }
  const shapes = dayShapes(place, 1)

  it('equals the Hay-Davies model of sky/tilted.ts, hour by hour, wherever the sun is above 5°', () => {
    const plane = onGround(planeOf(place, shapes), place)
    const light = new Float64Array(24)
    let compared = 0
    for (const day of [10, 80, 171, 265, 354])
      for (const clearness of [0.06, 0.3, 0.55, 0.75]) {
        dayOnPlane(plane, day, clearness, light)
        for (let hour = 0; hour < 24; hour++) {
          const i = day * 24 + hour
          const cosine = plane.cosZenith[i]
          if (cosine < Math.cos(85 / DEG)) continue
          const normal = plane.normal_W_m2[day]
          const global = Math.min(clearness * plane.global_W_m2[i], plane.above_W_m2[i])
          // Any split will do for comparing the two: take the table's own diffuse light at this clearness.
          const diffuse = 0.4 * global
          const beamNormal = Math.min((global - diffuse) / cosine, normal)
          const { total_W_m2 } = onPlane('hay-davies', {
            beamNormal_W_m2: beamNormal,
            diffuse_W_m2: diffuse,
            global_W_m2: global,
            extraterrestrialNormal_W_m2: normal,
            zenith_deg: Math.acos(cosine) * DEG,
            incidence_deg: Math.acos(plane.facing[i]) * DEG,
            airMass: 1 / cosine,
            tilt_deg: place.tilt_deg,
            albedo: place.albedo,
            skyViewFactor: plane.dome,
          })
          expect(lightOnPlane_W_m2(plane, global, diffuse, cosine, plane.facing[i], normal)).toBeCloseTo(
            total_W_m2,
            9,
          )
          compared++
        }
      }
    expect(compared).toBeGreaterThan(100)
  })

  it('gives a flat plane exactly the light on the horizontal', () => {
    const plane = planeOf({ ...place, tilt_deg: 0 }, shapes)
    const light = new Float64Array(24)
    for (const day of [0, 171, 300]) {
      dayOnPlane(plane, day, 0.5, light)
      const sum = light.reduce((a, b) => a + b, 0)
      let horizontal = 0
      for (let i = day * 24; i < day * 24 + 24; i++) horizontal += 0.5 * plane.global_W_m2[i]
      // Only light of the lowest five degrees may differ: its beam is bounded.
      expect(Math.abs(sum / horizontal - 1)).toBeLessThan(0.01)
    }
  })

  it('loses the beam behind a wall and keeps the light of the open sky', () => {
    const wall = [0, 90, 180, 270].map((azimuth_deg) => ({ azimuth_deg, elevation_deg: 30 }))
    const free = new Float64Array(24)
    const walled = new Float64Array(24)
    dayOnPlane(planeOf(place, shapes), 354, 0.6, free)
    dayOnPlane(planeOf({ ...place, horizon: wall }, shapes), 354, 0.6, walled)
    const sum = (values: Float64Array) => values.reduce((a, b) => a + b, 0)
    expect(sum(walled)).toBeGreaterThan(0)
    expect(sum(walled)).toBeLessThan(0.3 * sum(free)) // at 58° N the December sun stays below 9°
  })
})
