import { describe, expect, it } from 'vitest'
import { absoluteAirMass, airMass, standardPressure_Pa } from './air-mass.ts'
import { RAD_PER_DEG } from './angle.ts'
import { clearSky } from './clear-sky.ts'
import { onPlane } from './tilted.ts'

describe('clear sky', () => {
  it('gives the standard spectrum light: 900 W/m² direct, 1000 W/m² on 37° within 2 % (ASTM G173, from memory)', () => {
    // Air mass 1.5, 1348 W/m² above the air, sun at zenith 48.19°; the turbidity is the one that gives the direct light.
    const sky = clearSky(48.19, 0, 1348, 2.59)
    expect(Math.abs(sky.beamNormal_W_m2 - 900)).toBeLessThan(2)
    const plane = { zenith_deg: 48.19, incidence_deg: 11.19, airMass: 1.5, tilt_deg: 37, albedo: 0.2 }
    for (const model of ['hay-davies', 'perez'] as const) {
      const { total_W_m2 } = onPlane(model, { ...sky, ...plane, extraterrestrialNormal_W_m2: 1348 })
      expect(Math.abs(total_W_m2 / 1000 - 1)).toBeLessThan(0.02)
    }
  })

  it('agrees with Haurwitz (1945, from memory: 1098 cos z exp(-0.057/cos z)) within 5 % above 30° at turbidity 3', () => {
    for (const elevation of [30, 45, 60, 75, 90]) {
      const cosine = Math.sin(elevation * RAD_PER_DEG)
      const haurwitz = 1098 * cosine * Math.exp(-0.057 / cosine)
      expect(Math.abs(clearSky(90 - elevation, 0, 1361, 3).global_W_m2 / haurwitz - 1)).toBeLessThan(0.05)
    }
  })

  it('adds up, stays below the light above the air, and is dark below the horizon', () => {
    for (let zenith = 0; zenith < 90; zenith += 0.7)
      for (const elevation of [0, 1500, 4000])
        for (const turbidity of [1, 2, 3, 7]) {
          const sky = clearSky(zenith, elevation, 1361, turbidity)
          const cosine = Math.cos(zenith * RAD_PER_DEG)
          expect(sky.global_W_m2).toBeCloseTo(sky.diffuse_W_m2 + sky.beamNormal_W_m2 * cosine, 9)
          expect(sky.diffuse_W_m2).toBeGreaterThan(0)
          expect(sky.beamNormal_W_m2).toBeLessThan(1361)
          expect(sky.global_W_m2).toBeLessThan(1361 * cosine)
        }
    expect(clearSky(90, 0, 1361, 3).global_W_m2).toBe(0)
    expect(() => clearSky(30, 0, 1361, 0)).toThrow(RangeError)
  })
})

describe('air', () => {
  it('has the pressure of the standard atmosphere (ISO 2533, from memory): 1000 m 89 875 Pa, 2000 m 79 495 Pa', () => {
    expect(standardPressure_Pa(0)).toBe(101325)
    expect(Math.abs(standardPressure_Pa(1000) - 89875)).toBeLessThan(5)
    expect(Math.abs(standardPressure_Pa(2000) - 79495)).toBeLessThan(5)
    expect(() => standardPressure_Pa(12000)).toThrow(/12000/)
  })
  it('is crossed less from higher up, and no further than at the horizon', () => {
    expect(absoluteAirMass(60, 2000)).toBeCloseTo((airMass(60) * 79495) / 101325, 3)
    expect(airMass(95)).toBe(airMass(90))
    expect(() => airMass(-1)).toThrow(RangeError)
  })
})
