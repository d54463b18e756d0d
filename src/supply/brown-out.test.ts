import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { curve } from '../numeric/curve.ts'
import { dip, marginOf, neededOpen_V, type PeakLoad, type PowerPath } from './brown-out.ts'
import { lowestVoltage_V } from './sag.ts'
import type { Regulator } from './supply.ts'

const efficiency = curve([1e-6, 1e-4, 1e-2, 0.5], [0.4, 0.8, 0.92, 0.85])
const switching = { output_V: 3.3, dropOut_V: 0.1, minimum_V: 0.9, quiescent_A: 2e-6, efficiency }
const regulators: Regulator<number>[] = [
  { kind: 'none' },
  { kind: 'linear', output_V: 3.3, dropOut_V: 0.2, quiescent_A: 5e-6 },
  { kind: 'buck', ...switching },
  { kind: 'buck', ...switching, dropOut_V: 0.6 },
  { kind: 'boost', ...switching },
  { kind: 'boost', ...switching, minimum_V: 3.6 },
  { kind: 'buck-boost', ...switching },
]
const load: PeakLoad = { base_A: 0.01, peak_A: 0.3, peak_s: 0.005, direct_A: 0 }
const capacitor = { capacitance_F: 470e-6, esr_Ohm: 0.05, leakage_A: 5e-6 }

describe('sag', () => {
  const sag = { open_V: 3.6, resistance_Ohm: 0.4, base_A: 0.01, peak_A: 0.3, peak_s: 0.008 }
  it('without a capacitor is current times resistance', () => {
    expect(lowestVoltage_V({ ...sag, capacitor: null })).toBeCloseTo(3.6 - 0.3 * 0.4, 12)
  })
  it('with one is never deeper, and never shallower than its own resistance leaves it', () => {
    const positive = fc.double({ min: 1e-9, max: 10, noNaN: true })
    fc.assert(
      fc.property(positive, positive, fc.double({ min: 0, max: 10, noNaN: true }), (C, R, esr) => {
        const capacitor = { capacitance_F: C, esr_Ohm: esr, leakage_A: 0 }
        const v = lowestVoltage_V({ ...sag, resistance_Ohm: R, capacitor })
        const atOnce_V = 3.6 - R * 0.01 - 0.29 * ((R * esr) / (R + esr))
        return v >= 3.6 - 0.3 * R - 1e-12 && v <= atOnce_V + 1e-12
      }),
    )
  })
  it('is that of the base where the peak is no higher', () => {
    expect(lowestVoltage_V({ ...sag, capacitor, peak_A: 0 })).toBeCloseTo(3.6 - 0.4 * (0.01 + 5e-6), 12)
  })
  it('refuses values below zero', () => {
    expect(() => lowestVoltage_V({ ...sag, capacitor: null, resistance_Ohm: -1 })).toThrow(/resistance_Ohm/)
    expect(() => lowestVoltage_V({ ...sag, capacitor: null, peak_A: NaN })).toThrow(/peak_A/)
  })
})

describe('brown-out', () => {
  const path: PowerPath = { resistance_Ohm: 0.4, capacitor: null, regulator: { kind: 'none' } }
  it('has its margin in volts at the rail', () => {
    const lowest = dip(path, load, 3.6)
    expect(marginOf({ at_V: 2.8, restart_V: 3 }, lowest)).toBeCloseTo(3.6 - 0.12 - 2.8, 12)
  })
  it('counts what is drawn ahead of the regulator, and what the regulator and the capacitor take themselves', () => {
    const regulator: Regulator<number> = { kind: 'linear', output_V: 2, dropOut_V: 0.2, quiescent_A: 0.01 }
    const capacitorLeaking = { capacitance_F: 1e-9, esr_Ohm: 0, leakage_A: 0.02 }
    const busy = { ...load, direct_A: 0.05 }
    const lowest = dip({ resistance_Ohm: 0.4, capacitor: capacitorLeaking, regulator }, busy, 3.6)
    expect(lowest.kind === 'holds' && lowest.input_V).toBeCloseTo(3.6 - 0.4 * (0.3 + 0.05 + 0.01 + 0.02), 12)
  })
  it('collapses where the source cannot give the power: V0² < 4·R·P', () => {
    const ideal = { ...switching, quiescent_A: 0, efficiency: curve([1e-6, 1], [1, 1]) }
    const boosted: PowerPath = { ...path, resistance_Ohm: 1, regulator: { kind: 'boost', ...ideal } }
    const limit_V = 2 * Math.sqrt(0.3 * 3.3) // 1.98997 V
    const fallen = dip(boosted, load, limit_V - 1e-6)
    expect(fallen).toMatchObject({ kind: 'collapsed' })
    expect(fallen.kind === 'collapsed' && fallen.neededOpen_V).toBeCloseTo(limit_V, 12)
    expect(marginOf({ at_V: 2.8, restart_V: 3 }, fallen)).toBeNull()
    // Matched to the source, half of its voltage is left.
    expect(dip(boosted, load, limit_V + 1e-12)).toMatchObject({ kind: 'holds', rail_V: 3.3 })
    const just = dip(boosted, load, limit_V + 1e-12)
    expect(just.kind === 'holds' && just.input_V).toBeCloseTo(limit_V / 2, 5)
  })
  it('stops where the input falls below what the regulator needs', () => {
    const boosted: PowerPath = { ...path, regulator: { kind: 'boost', ...switching, minimum_V: 2 } }
    expect(dip(boosted, load, 2.1)).toMatchObject({ kind: 'stopped' })
  })
  it('names no voltage where the regulator gives less than the device needs', () => {
    for (const regulator of regulators.slice(1))
      expect(neededOpen_V({ ...path, regulator }, load, 3.4)).toBeNull()
  })
  it('is passed from the needed open-circuit voltage on, and not below', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...regulators),
        fc.constantFrom(null, capacitor),
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        fc.double({ min: 1, max: 3.3, noNaN: true }),
        (regulator, cap, resistance_Ohm, peak_A, at_V) => {
          const met: PowerPath = { resistance_Ohm, capacitor: cap, regulator }
          const peak: PeakLoad = { ...load, peak_A, direct_A: 1e-4 }
          const needed_V = neededOpen_V(met, peak, at_V)
          if (needed_V === null) return false
          const margins = [-1e-3, 1e-9, 1e-3, 0.5, 3].map((more) =>
            marginOf({ at_V, restart_V: at_V }, dip(met, peak, needed_V + more)),
          )
          const [below, ...above] = margins
          return (below === null || below < 0) && above.every((m) => m !== null && m > -1e-9)
        },
      ),
      { numRuns: 2000 },
    )
  })
  it('lets a buck stay at the edge between regulating and passing, where its output is just enough', () => {
    const met: PowerPath = { ...path, regulator: { kind: 'buck', ...switching } }
    const needed_V = neededOpen_V(met, load, 3.3)!
    expect(needed_V).toBeCloseTo(3.4 + 0.4 * (0.3 + 2e-6), 12) // passing: regulating would take more than 0.3 A
    expect(marginOf({ at_V: 3.3, restart_V: 3.3 }, dip(met, load, needed_V + 1e-3))).toBeCloseTo(0, 12)
  })
  it('leaves a rail that never falls as the source rises', () => {
    const volts = fc.double({ min: 0, max: 8, noNaN: true })
    fc.assert(
      fc.property(fc.constantFrom(...regulators), volts, volts, (regulator, a, b) => {
        const railAt = (open_V: number) => {
          const lowest = dip({ ...path, capacitor, regulator, resistance_Ohm: 2 }, load, open_V)
          return lowest.kind === 'holds' ? lowest.rail_V : -1
        }
        return railAt(Math.min(a, b)) <= railAt(Math.max(a, b)) + 1e-12
      }),
      { numRuns: 1000 },
    )
  })
})
