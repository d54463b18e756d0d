import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { airMass } from './air-mass.ts'
import { RAD_PER_DEG } from './angle.ts'
import { incidenceCosine } from './incidence.ts'
import type { SkyModel } from './sky-brightness.ts'
import { onPlane, type PlaneLight } from './tilted.ts'

/** Evenly spread; fast-check's own doubles are mostly next to zero. */
const even = (min: number, max: number) =>
  fc.integer({ min: 0, max: 100_000 }).map((i) => min + ((max - min) * i) / 100_000)

const MODELS: readonly SkyModel[] = ['isotropic', 'hay-davies', 'perez']

/** Beam up to the light above the air, diffuse light of any hour's mean: at low sun more than belongs to its midpoint. */
const light: fc.Arbitrary<PlaneLight> = fc
  .record({
    elevation_deg: fc.oneof(even(-10, 90), even(0, 1)),
    around_deg: even(-180, 180),
    tilt_deg: even(0, 180),
    albedo: even(0, 1),
    above_W_m2: even(1310, 1420),
    beamShare: even(0, 1),
    diffuse_W_m2: even(0, 600),
  })
  .map((a) => {
    const sine = Math.max(Math.sin(a.elevation_deg * RAD_PER_DEG), 0)
    const beamNormal_W_m2 = sine > 0 ? a.above_W_m2 * a.beamShare : 0
    const { diffuse_W_m2 } = a
    const facing = incidenceCosine(a.elevation_deg, a.around_deg, a.tilt_deg, 0)
    return {
      beamNormal_W_m2,
      diffuse_W_m2,
      global_W_m2: diffuse_W_m2 + beamNormal_W_m2 * sine,
      extraterrestrialNormal_W_m2: a.above_W_m2,
      zenith_deg: 90 - a.elevation_deg,
      incidence_deg: Math.acos(Math.min(Math.max(facing, -1), 1)) / RAD_PER_DEG,
      airMass: airMass(90 - a.elevation_deg),
      tilt_deg: a.tilt_deg,
      albedo: a.albedo,
    }
  })

const CLEAR: PlaneLight = {
  beamNormal_W_m2: 700,
  diffuse_W_m2: 120,
  global_W_m2: 470,
  extraterrestrialNormal_W_m2: 1360,
  zenith_deg: 60,
  incidence_deg: 20,
  airMass: 2,
  tilt_deg: 45,
  albedo: 0.2,
}

describe.each(MODELS)('%s', (model) => {
  it('never gives more than physics allows', () => {
    fc.assert(
      fc.property(light, (given) => {
        const got = onPlane(model, given)
        for (const part of Object.values(got)) {
          expect(part).toBeGreaterThanOrEqual(0)
          expect(Number.isFinite(part)).toBe(true)
        }
        const above = given.extraterrestrialNormal_W_m2
        expect(got.beam_W_m2).toBeLessThanOrEqual(given.beamNormal_W_m2)
        expect(got.beam_W_m2 + got.circumsolar_W_m2).toBeLessThanOrEqual(above * (1 + 1e-12))
        // The sky of Perez is brighter than even at the horizon, at most by its largest coefficients.
        const brightest = model === 'perez' ? 1.4 : 1
        expect(got.skyDiffuse_W_m2).toBeLessThanOrEqual(given.diffuse_W_m2 * brightest + 1e-9)
        expect(got.ground_W_m2).toBeLessThanOrEqual(given.global_W_m2 + 1e-9)
      }),
      { numRuns: 2000, seed: 1 },
    )
  })

  it('a flat plane gets the light on the horizontal, at any height of the sun', () => {
    fc.assert(
      fc.property(light, (given) => {
        const flat = onPlane(model, { ...given, tilt_deg: 0, incidence_deg: given.zenith_deg })
        expect(flat.total_W_m2).toBeCloseTo(given.global_W_m2, 6)
      }),
      { numRuns: 500, seed: 2 },
    )
  })

  it('gets no beam and no light around the sun when the horizon hides it or it stands behind', () => {
    for (const change of [{ sunHidden: true }, { incidence_deg: 120 }, { zenith_deg: 91 }]) {
      const got = onPlane(model, { ...CLEAR, ...change })
      expect(got.beam_W_m2).toBe(0)
      expect(got.circumsolar_W_m2).toBe(0)
      expect(got.skyDiffuse_W_m2).toBeGreaterThan(0)
    }
  })

  it('sees less sky behind a horizon, and none in the dark', () => {
    const open = onPlane(model, CLEAR)
    const half = onPlane(model, { ...CLEAR, skyViewFactor: 0.4 })
    expect(half.skyDiffuse_W_m2).toBeLessThan(open.skyDiffuse_W_m2)
    expect(onPlane(model, { ...CLEAR, beamNormal_W_m2: 0, diffuse_W_m2: 0, global_W_m2: 0 }).total_W_m2).toBe(
      0,
    )
  })

  it('refuses what cannot be, with the numbers', () => {
    expect(() => onPlane(model, { ...CLEAR, diffuse_W_m2: -1 })).toThrow(/-1/)
    expect(() => onPlane(model, { ...CLEAR, global_W_m2: Number.NaN })).toThrow(RangeError)
    expect(() => onPlane(model, { ...CLEAR, beamNormal_W_m2: 1400 })).toThrow(/1400 against 1360/)
  })
})

describe('the models, written out as in their papers', () => {
  it('Hay & Davies: (Gb + A Gd) Rb + Gd (1 - A)(1 + cos tilt)/2 (Duffie & Beckman 2.16.4 with f = 0)', () => {
    const a = 700 / 1360
    const rb = Math.cos(20 * RAD_PER_DEG) / 0.5
    const tilt = (1 + Math.SQRT1_2) / 2
    const expected = (350 + a * 120) * rb + 120 * (1 - a) * tilt + 470 * 0.2 * (1 - tilt)
    expect(onPlane('hay-davies', CLEAR).total_W_m2).toBeCloseTo(expected, 9)
  })

  /** Beam, its clearness bin (Table 6) at zenith 60° with 120 W/m² of diffuse light, and that bin's coefficients. */
  it.each([
    [0, '1', -0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
    [471, '2.79, just under 2.8', 0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
    [475, '2.803, just over 2.8', 1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
    [700, '3.66', 1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  ])('Perez with %d W/m² of beam: clearness %s', (beamNormal_W_m2, _, f11, f12, f13, f21, f22, f23) => {
    const z = Math.PI / 3
    const brightness = (120 * 2) / 1360
    const f1 = f11 + f12 * brightness + f13 * z
    const f2 = f21 + f22 * brightness + f23 * z
    const dome = (1 + Math.SQRT1_2) / 2
    const sky = 120 * ((1 - f1) * dome + (f1 * Math.cos(20 * RAD_PER_DEG)) / 0.5 + f2 * Math.SQRT1_2) // Eq. 9
    const got = onPlane('perez', { ...CLEAR, beamNormal_W_m2 })
    expect(got.circumsolar_W_m2 + got.skyDiffuse_W_m2).toBeCloseTo(sky, 9)
  })

  it('below 5° the circumsolar light is divided by cos 85° and the rest stays in the even sky', () => {
    const low = { ...CLEAR, beamNormal_W_m2: 136, diffuse_W_m2: 20, zenith_deg: 89, incidence_deg: 0 }
    const got = onPlane('hay-davies', low)
    const normal = (0.1 * 20) / Math.cos(85 * RAD_PER_DEG)
    expect(got.circumsolar_W_m2).toBeCloseTo(normal, 9)
    const even = 20 - normal * Math.cos(89 * RAD_PER_DEG)
    expect(got.skyDiffuse_W_m2).toBeCloseTo((even * (1 + Math.SQRT1_2)) / 2, 9)
  })
})
