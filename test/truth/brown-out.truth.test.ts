/**
 * Sag in closed form against the same circuit integrated numerically by the library odex, and against closed forms of
 * circuit theory (truth/brown-out/README.md).
 */
import { createRequire } from 'node:module'
import { describe, expect, it } from 'vitest'
import { curve } from '../../src/numeric/curve.ts'
import { dip } from '../../src/supply/brown-out.ts'
import { lowestVoltage_V } from '../../src/supply/sag.ts'
import type { Capacitor } from '../../src/supply/supply.ts'
import droop from '../../truth/brown-out/droop.json' with { type: 'json' }

const TOLERANCE = {
  /** V; the integrator's own tolerance (1e-11), over many steps. */
  constantCurrent_V: 1e-6,
  /** Share of the sag by which a constant power may be judged too hard: its current is taken at the lowest voltage. */
  constantPowerExcess: 0.09,
}

// The package's own types are sources that this compiler's rules do not accept.
const { Solver } = createRequire(import.meta.url)('odex') as {
  Solver: new (
    n: number,
  ) => {
    absoluteTolerance: number
    relativeTolerance: number
    maxSteps: number
    solve(f: (t: number, y: number[]) => number[], t0: number, y0: number[], t1: number): { y: number[] }
  }
}

function integrate(slope: (y: number) => number, from: number, duration_s: number): number {
  const solver = new Solver(1)
  solver.absoluteTolerance = solver.relativeTolerance = 1e-11
  solver.maxSteps = 1_000_000
  return solver.solve((_, [y]) => [slope(y)], 0, [from], duration_s).y[0]
}

const published = (id: string) => droop.find((item) => item.id === id)!

interface Circuit {
  readonly open_V: number
  readonly resistance_Ohm: number
  readonly capacitor: Capacitor<number>
  readonly peak_s: number
}

/** Voltage on the load: source through R and capacitor through ESR both feed it (node law), for a constant current. */
const node = (c: Omit<Circuit, 'peak_s'>, stored_V: number, current_A: number) =>
  c.capacitor.esr_Ohm === 0
    ? stored_V
    : (c.open_V / c.resistance_Ohm + stored_V / c.capacitor.esr_Ohm - current_A) /
      (1 / c.resistance_Ohm + 1 / c.capacitor.esr_Ohm)

/** Ends at the load's voltage after the peak; the capacitor's current is what the source gives less what the load takes. */
function integrated(c: Circuit, base_A: number, current_A: (load_V: number) => number): number {
  const loadAt = (stored_V: number) => {
    let v = node(c, stored_V, current_A(stored_V))
    for (let i = 0; i < 60; i++) v = node(c, stored_V, current_A(v))
    return v
  }
  const slope = (stored_V: number) => {
    const v = loadAt(stored_V)
    return ((c.open_V - v) / c.resistance_Ohm - current_A(v)) / c.capacitor.capacitance_F
  }
  return loadAt(integrate(slope, c.open_V - c.resistance_Ohm * base_A, c.peak_s))
}

describe('sag under a constant current', () => {
  it.each([
    {
      title: 'a coin cell and 100 µF',
      open_V: 3,
      R: 30,
      C: 100e-6,
      esr: 0.5,
      base: 1e-5,
      peak: 0.015,
      s: 0.004,
    },
    { title: 'a tiny capacitor', open_V: 3.6, R: 0.4, C: 100e-9, esr: 0.01, base: 0.01, peak: 0.3, s: 2e-5 },
    { title: 'a large one', open_V: 3.6, R: 25, C: 1, esr: 0.2, base: 1e-4, peak: 0.12, s: 0.4 },
    {
      title: 'no series resistance',
      open_V: 3.6,
      R: 2,
      C: 470e-6,
      esr: 0,
      base: 0.001,
      peak: 0.25,
      s: 0.002,
    },
    {
      title: 'much series resistance',
      open_V: 4.1,
      R: 0.15,
      C: 2.2e-3,
      esr: 3,
      base: 0.05,
      peak: 1.5,
      s: 0.02,
    },
    {
      title: 'a hundred time constants',
      open_V: 3.2,
      R: 1,
      C: 47e-6,
      esr: 0.05,
      base: 0,
      peak: 0.4,
      s: 0.005,
    },
  ])('$title', ({ open_V, R, C, esr, base, peak, s }) => {
    const circuit: Circuit = {
      open_V,
      resistance_Ohm: R,
      capacitor: { capacitance_F: C, esr_Ohm: esr, leakage_A: 0 },
      peak_s: s,
    }
    const closed = lowestVoltage_V({ ...circuit, base_A: base, peak_A: peak })
    expect(closed).toBeLessThan(open_V - R * base) // there is a sag to speak of
    expect(Math.abs(closed - integrated(circuit, base, () => peak))).toBeLessThan(TOLERANCE.constantCurrent_V)
  })

  it('is I·t/C where the source gives next to nothing (closed form)', () => {
    const { inputs, expected, tolerance } = published('cap-droop')
    const lowest_V = lowestVoltage_V({
      open_V: 0,
      resistance_Ohm: 1e14,
      capacitor: { capacitance_F: inputs.C_F!, esr_Ohm: 0, leakage_A: 0 },
      base_A: 0,
      peak_A: inputs.I_A!,
      peak_s: inputs.t_s!,
    })
    expect(Math.abs(lowest_V + expected)).toBeLessThan(tolerance)
  })

  it('is I·R where there is no capacitor (closed form)', () => {
    const { inputs, expected, tolerance } = published('pulse-drop')
    const sag = { open_V: inputs.V0!, resistance_Ohm: inputs.R_Ohm!, capacitor: null, base_A: 0, peak_s: 1 }
    expect(Math.abs(lowestVoltage_V({ ...sag, peak_A: inputs.I_A! }) - expected)).toBeLessThan(tolerance)
  })
})

describe('a wake of several steps', () => {
  // Not one of them lasts until the capacitor has settled after the one before.
  const steps = [
    { current_A: 0.018, duration_s: 0.45 },
    { current_A: 0.044, duration_s: 0.3 },
    { current_A: 0.031, duration_s: 0.33 },
    { current_A: 0.002, duration_s: 0.05 },
    { current_A: 0.0105, duration_s: 1.1 },
  ]
  it.each([
    { title: 'a layer capacitor beside a cell of little current', open_V: 3.65, R: 28, C: 0.47, esr: 0.3 },
    { title: 'a capacitor that empties within a step', open_V: 3.6, R: 12, C: 4.7e-3, esr: 0.05 },
    { title: 'no series resistance', open_V: 3, R: 20, C: 0.02, esr: 0 },
  ])('$title: at the end of each step as integrated', ({ open_V, R, C, esr }) => {
    const base_A = 3e-6
    const capacitor = { capacitance_F: C, esr_Ohm: esr, leakage_A: 0 }
    const circuit = { open_V, resistance_Ohm: R, capacitor }
    let stored_V = open_V - R * base_A
    for (const [k, { current_A, duration_s }] of steps.entries()) {
      stored_V = integrate(
        (stored) => ((open_V - node(circuit, stored, current_A)) / R - current_A) / C,
        stored_V,
        duration_s,
      )
      const lowest = dip(
        { resistance_Ohm: R, capacitor, regulator: { kind: 'none' } },
        { base_A, before: steps.slice(0, k), peak_A: current_A, peak_s: duration_s, direct_A: 0 },
        open_V,
      )
      if (lowest.kind !== 'holds') throw new Error(`the closed form ${lowest.kind}`)
      const difference_V = lowest.input_V - node(circuit, stored_V, current_A)
      expect(Math.abs(difference_V)).toBeLessThan(TOLERANCE.constantCurrent_V)
    }
  })
})

describe('sag under a constant power', () => {
  it('the integration itself keeps the energy of a capacitor (closed form)', () => {
    const { inputs, expected } = published('cap-cp')
    const end_V = integrate((v) => -inputs.P_W! / v / inputs.C_F!, inputs.V1!, expected)
    expect(Math.abs(end_V - inputs.V2!)).toBeLessThan(1e-8)
  })

  it.each([
    { title: 'a lithium cell in the cold', open_V: 3.5, R: 1.2, C: 470e-6, esr: 0.05, peak: 0.3, s: 0.002 },
    { title: 'a small cell, a large capacitor', open_V: 3.6, R: 20, C: 0.01, esr: 0.1, peak: 0.1, s: 0.05 },
    { title: 'two alkaline cells, boosted', open_V: 2.6, R: 0.8, C: 100e-6, esr: 0.1, peak: 0.25, s: 0.004 },
  ])('$title: on the safe side, and not far', ({ open_V, R, C, esr, peak, s }) => {
    const regulator = {
      kind: 'buck-boost' as const,
      output_V: 3.3,
      dropOut_V: 0.1,
      minimum_V: 0.5,
      quiescent_A: 0,
      efficiency: curve([1e-6, 1], [0.9, 0.9]),
    }
    const capacitor = { capacitance_F: C, esr_Ohm: esr, leakage_A: 0 }
    const lowest = dip(
      { resistance_Ohm: R, capacitor, regulator },
      { base_A: 0, peak_A: peak, peak_s: s, direct_A: 0 },
      open_V,
    )
    const power_W = (peak * 3.3) / 0.9
    const true_V = integrated({ open_V, resistance_Ohm: R, capacitor, peak_s: s }, 0, (v) => power_W / v)
    if (lowest.kind !== 'holds') throw new Error(`the closed form ${lowest.kind}`)
    const excess = (true_V - lowest.input_V) / (open_V - true_V)
    expect(excess).toBeGreaterThan(-1e-9) // equal, where the peak lasts until all has settled
    expect(excess).toBeLessThan(TOLERANCE.constantPowerExcess)
  })
})
