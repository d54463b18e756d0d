/**
 * Uncertainty mathematics against the worked examples of JCGM 100:2008 (H.1, H.2, table G.2) and JCGM 101:2008 (9.2,
 * 9.3, 9.5); sources and provenance are in truth/uncertainty/README.md.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { stream } from '../../src/numeric/random.ts'
import { coverageFactor } from '../../src/numeric/student.ts'
import { coverageInterval } from '../../src/quantity/coverage.ts'
import type { Estimate } from '../../src/quantity/estimate.ts'
import { monteCarlo, type Sampler, shortestInterval } from '../../src/quantity/monte-carlo.ts'
import { observed } from '../../src/quantity/observed.ts'
import { propagate } from '../../src/quantity/propagate.ts'
import { arcsine, curvilinearTrapezoid, gaussian, rectangular, scaledT } from '../../src/quantity/sampler.ts'
import { secondOrderVariance } from '../../src/quantity/second-order.ts'

/** Allowed beside each row's own tolerance, which is half a digit of the printed value. */
const TOLERANCE = {
  student: 1e-12, // relative, against quadrature in 40 digits: rounding of the continued fraction
}

interface Row<Value = number> {
  readonly id: string
  readonly expected: Value
  readonly tolerance: Value extends number ? number : Value | number
  readonly unit: string
}

function load<T>(name: string): T {
  return JSON.parse(readFileSync(new URL(`../../truth/uncertainty/${name}.json`, import.meta.url), 'utf8'))
}

/** Every row is met, and every result is asked for by a row. */
function expectRows(rows: readonly Row[], results: Readonly<Record<string, number>>): void {
  expect(rows.map(({ id }) => id).sort()).toEqual(Object.keys(results).sort())
  for (const { id, expected, tolerance } of rows)
    expect(Math.abs(results[id] - expected), `${id}: ${results[id]} for ${expected}`).toBeLessThanOrEqual(
      tolerance,
    )
}

describe('resistance, reactance and impedance from five readings at once (JCGM 100, H.2)', () => {
  type Six = Readonly<Record<'R' | 'X' | 'Z' | 'uR' | 'uX' | 'uZ', number>>
  const truth = load<{
    readings: { V: number[]; I_mA: number[]; phi_rad: number[] }
    approach_1: Row[]
    printed_inputs: Record<'V' | 'I_mA' | 'phi' | 'r_VI' | 'r_Vphi' | 'r_Iphi', number> & { u: number[] }
    rounded: Row<Six>
    uncorrelated: Row<Omit<Six, 'R' | 'X' | 'Z'>>
    approach_2: Row<Six>
  }>('impedance')
  const model = ([volts, milliamperes, phase]: readonly number[]): number[] => {
    const impedance = volts / (milliamperes * 1e-3)
    return [impedance * Math.cos(phase), impedance * Math.sin(phase), impedance]
  }
  const { V, I_mA, phi_rad } = truth.readings

  const six = (outputs: readonly Estimate[]): Six => ({
    R: outputs[0].value,
    X: outputs[1].value,
    Z: outputs[2].value,
    uR: outputs[0].u,
    uX: outputs[1].u,
    uZ: outputs[2].u,
  })
  function expectSix(row: Row<Partial<Six>>, actual: Six): void {
    for (const key of Object.keys(row.expected) as (keyof Six)[]) {
      const tolerance = typeof row.tolerance === 'number' ? row.tolerance : row.tolerance[key]
      expect(Math.abs(actual[key] - (row.expected[key] ?? Number.NaN)), key).toBeLessThanOrEqual(
        tolerance ?? 0,
      )
    }
  }

  it('approach 1: means, their correlations, and what they give', () => {
    const { estimates, correlation } = observed([V, I_mA, phi_rad])
    const result = propagate(model, estimates, { correlation })
    const outputs = six(result.outputs)
    expectRows(truth.approach_1, {
      'H2-mean-V': estimates[0].value,
      'H2-mean-I': estimates[1].value,
      'H2-mean-phi': estimates[2].value,
      'H2-u-V': estimates[0].u,
      'H2-u-I': estimates[1].u,
      'H2-u-phi': estimates[2].u,
      'H2-r-VI': correlation[0][1],
      'H2-r-Vphi': correlation[0][2],
      'H2-r-Iphi': correlation[1][2],
      'H2-R': outputs.R,
      'H2-X': outputs.X,
      'H2-Z': outputs.Z,
      'H2-u-R': outputs.uR,
      'H2-u-X': outputs.uX,
      'H2-u-Z': outputs.uZ,
      'H2-r-RX': result.correlation[0][1],
      'H2-r-RZ': result.correlation[0][2],
      'H2-r-XZ': result.correlation[1][2],
    })
  })

  it('approach 2: the three results of every reading, averaged', () => {
    const results = V.map((volts, k) => model([volts, I_mA[k], phi_rad[k]]))
    const { estimates } = observed([0, 1, 2].map((output) => results.map((result) => result[output])))
    expectSix(truth.approach_2, six(estimates))
  })

  it('from the printed inputs, with their correlations and without', () => {
    const printed = truth.printed_inputs
    const inputs = [printed.V, printed.I_mA, printed.phi].map((value, i) => ({
      value,
      u: printed.u[i],
      dof: 4,
    }))
    const { r_VI, r_Vphi, r_Iphi } = printed
    const correlation = [
      [1, r_VI, r_Vphi],
      [r_VI, 1, r_Iphi],
      [r_Vphi, r_Iphi, 1],
    ]
    expectSix(truth.rounded, six(propagate(model, inputs, { correlation }).outputs))
    expectSix(truth.uncorrelated, six(propagate(model, inputs).outputs))
  })
})

describe('end-gauge calibration (JCGM 100, H.1)', () => {
  const { inputs: given, rows } = load<{ inputs: Record<string, number>; rows: Row[] }>('gauge')
  // Order: standard, difference, δα, θ, α of the standard, δθ. Lengths in nm; those two are 0 at their best.
  const model = ([ls, d, dalpha, theta, alpha, dtheta]: readonly number[]): number =>
    ls + d - ls * (dalpha * theta + alpha * dtheta)
  const inputs: Estimate[] = [
    { value: given.l_s_nm, u: given.u_ls_nm, dof: given.dof_ls },
    { value: given.d_nm, u: given.u_d_nm, dof: given.dof_d },
    { value: 0, u: given.u_dalpha, dof: given.dof_dalpha },
    { value: given.theta_mean, u: given.u_theta, dof: Infinity },
    { value: given.alpha_s, u: given.u_alpha_s, dof: Infinity },
    { value: 0, u: given.u_dtheta, dof: given.dof_dtheta },
  ]

  it('components, combined and expanded uncertainty, degrees of freedom, second order', () => {
    const { outputs, sensitivities } = propagate((x) => [model(x)], inputs)
    const [{ value, u, dof }] = outputs
    expect(dof).not.toBeNull()
    const { high, factor } = coverageInterval({ value, u, dof: dof ?? Number.NaN }, 0.99)
    const [c] = sensitivities
    expectRows(rows, {
      'H1-c1': Math.abs(c[2] * inputs[2].u),
      'H1-c2': Math.abs(c[5] * inputs[5].u),
      'H1-uc': u,
      'H1-nueff': dof ?? Number.NaN,
      'H1-t99': factor,
      'H1-U99': high - value,
      'H1-second-order': Math.sqrt(u * u + secondOrderVariance(model, inputs)),
    })
  })
})

describe("Student's t (JCGM 100, table G.2)", () => {
  const rows = load<(Row & { dof: number; probability: number; exact: number })[]>('student')
  it.each(rows)(
    't for $probability and $dof degrees of freedom',
    ({ dof, probability, expected, tolerance, exact }) => {
      const factor = coverageFactor(probability, dof)
      expect(Math.abs(factor - expected)).toBeLessThanOrEqual(tolerance)
      expect(Math.abs(factor / exact - 1)).toBeLessThanOrEqual(TOLERANCE.student)
    },
  )
})

describe('propagation of distributions (JCGM 101)', () => {
  const rows = load<Row[]>('distributions')
  const of = (example: string) => rows.filter(({ id }) => id.startsWith(example))
  const TRIALS = 1_000_000 // keeps the noise of the draws inside the tolerances
  const SEED = 20_080_101

  const sum = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0)
  const unit = rectangular(-Math.sqrt(3), Math.sqrt(3))
  const wide = rectangular(-10 * Math.sqrt(3), 10 * Math.sqrt(3))
  it.each<[string, Sampler[]]>([
    ['9.2.2', [gaussian(0, 1), gaussian(0, 1), gaussian(0, 1), gaussian(0, 1)]],
    ['9.2.3', [unit, unit, unit, unit]],
    ['9.2.4', [unit, unit, unit, wide]],
  ])('%s: sums of four', (example, inputs) => {
    const { u, sorted } = monteCarlo(sum, inputs, TRIALS, stream(SEED, 0, 0))
    const { low, high } = shortestInterval(sorted, 0.95)
    expectRows(of(example), { [`${example}-u`]: u, [`${example}-hi`]: (high - low) / 2 })
  })

  it('9.3: mass calibration, in mg, sampled and by first order', () => {
    const model = ([mass, difference, air, weight, reference]: readonly number[]): number =>
      (mass + difference) * (1 + (air - 1.2) * (1 / weight - 1 / reference)) - 100_000
    const inputs = [
      gaussian(100_000, 0.05),
      gaussian(1.234, 0.02),
      rectangular(1.1, 1.3),
      rectangular(7000, 9000),
      rectangular(7950, 8050),
    ]
    const { value, u, sorted } = monteCarlo(model, inputs, TRIALS, stream(SEED, 1, 0))
    const { low, high } = shortestInterval(sorted, 0.95)
    const estimates = [
      { value: 100_000, u: 0.05, dof: Infinity },
      { value: 1.234, u: 0.02, dof: Infinity },
      { value: 1.2, u: 0.1 / Math.sqrt(3), dof: Infinity },
      { value: 8000, u: 1000 / Math.sqrt(3), dof: Infinity },
      { value: 8000, u: 50 / Math.sqrt(3), dof: Infinity },
    ]
    const [first] = propagate((x) => [model(x)], estimates).outputs
    expectRows(of('9.3'), { '9.3-y': value, '9.3-u': u, '9.3-lo': low, '9.3-hi': high, '9.3-guf1': first.u })
    // Table 5 with second-order terms: 0.0750 mg (from memory).
    expect(Math.sqrt(first.u ** 2 + secondOrderVariance(model, estimates))).toBeCloseTo(0.075, 4)
  })

  it('9.5: gauge block, in nm', () => {
    const model = ([ls, d, d1, d2, alpha, theta0, swing, dalpha, dtheta]: readonly number[]): number =>
      ls + d + d1 + d2 - ls * (dalpha * (theta0 + swing) + alpha * dtheta) - 50_000_000
    const inputs = [
      scaledT(50_000_623, 25, 18),
      scaledT(215, 6, 24),
      scaledT(0, 4, 5),
      scaledT(0, 7, 8),
      rectangular(9.5e-6, 13.5e-6),
      gaussian(-0.1, 0.2),
      arcsine(-0.5, 0.5),
      curvilinearTrapezoid(-1e-6, 1e-6, 0.1e-6),
      curvilinearTrapezoid(-0.05, 0.05, 0.025),
    ]
    const { value, u, sorted } = monteCarlo(model, inputs, TRIALS, stream(SEED, 2, 0))
    const { low, high } = shortestInterval(sorted, 0.99)
    expectRows(of('9.5'), { '9.5-y': value, '9.5-u': u, '9.5-lo': low, '9.5-hi': high })
  })
})
