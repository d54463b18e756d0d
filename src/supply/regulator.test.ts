import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { curve } from '../numeric/curve.ts'
import { batteryCurrent_A, efficiencyAt, railVoltage_V } from './regulator.ts'
import type { Regulator } from './supply.ts'

const efficiency = curve([1e-6, 1e-4, 1e-2, 0.3], [0.4, 0.8, 0.92, 0.85])
const switching = { output_V: 3.3, dropOut_V: 0.1, minimum_V: 0.9, quiescent_A: 2e-6, efficiency }
const linear: Regulator<number> = { kind: 'linear', output_V: 3.3, dropOut_V: 0.2, quiescent_A: 5e-6 }
const buck: Regulator<number> = { kind: 'buck', ...switching }
const boost: Regulator<number> = { kind: 'boost', ...switching }
const buckBoost: Regulator<number> = { kind: 'buck-boost', ...switching }
const all: Regulator<number>[] = [{ kind: 'none' }, linear, buck, boost, buckBoost]

describe('a regulator', () => {
  it('linear: current in is current out and the quiescent; out of regulation the drop-out is lost', () => {
    expect(batteryCurrent_A(linear, 0.01, 4)).toBeCloseTo(0.010005, 12)
    expect(railVoltage_V(linear, 4)).toBe(3.3)
    expect(railVoltage_V(linear, 3.4)).toBeCloseTo(3.2, 12)
    expect(railVoltage_V(linear, 0.1)).toBe(0)
  })
  it('switching: power in is power out over efficiency', () => {
    // 10 mA at 3.3 V and 92 % from 3.6 V, by hand: 33 mW / 0.92 / 3.6 V = 9.9638 mA
    expect(batteryCurrent_A(buck, 0.01, 3.6)).toBeCloseTo(0.0099638 + 2e-6, 7)
    expect(batteryCurrent_A(boost, 0.01, 1.2)).toBeCloseTo(0.0298913 + 2e-6, 7)
    expect(batteryCurrent_A(buckBoost, 0, 3)).toBe(2e-6)
  })
  it('buck passes through below output and drop-out, boost above', () => {
    expect(railVoltage_V(buck, 3.3)).toBeCloseTo(3.2, 12)
    expect(batteryCurrent_A(buck, 0.01, 3.3)).toBe(0.010002)
    expect(railVoltage_V(boost, 4)).toBeCloseTo(3.9, 12)
    expect(batteryCurrent_A(boost, 0.01, 4)).toBe(0.010002)
    expect(railVoltage_V(buckBoost, 4)).toBe(3.3)
  })
  it('stops below its lowest input', () => {
    for (const regulator of [buck, boost, buckBoost]) {
      expect(batteryCurrent_A(regulator, 0.01, 0.89)).toBeNull()
      expect(railVoltage_V(regulator, 0.89)).toBeNull()
    }
  })
  it('reads efficiency on a logarithmic axis', () => {
    if (buck.kind !== 'buck') throw new Error('a buck is a buck')
    expect(efficiencyAt(buck, 1e-5)).toBeCloseTo(0.6, 12) // half-way between 1 µA and 100 µA
    expect(efficiencyAt(buck, 1)).toBe(0.85)
    expect(efficiencyAt(buck, 0)).toBe(0.4)
  })
  it('never gives more energy than it takes, and takes more the more it gives', () => {
    const volts = fc.double({ min: 0, max: 12, noNaN: true })
    const amperes = fc.double({ min: 0, max: 0.3, noNaN: true })
    fc.assert(
      fc.property(fc.constantFrom(...all), volts, amperes, amperes, (regulator, v, a, b) => {
        const low = batteryCurrent_A(regulator, Math.min(a, b), v)
        const high = batteryCurrent_A(regulator, Math.max(a, b), v)
        const rail_V = railVoltage_V(regulator, v)
        if (low === null || high === null || rail_V === null) return low === high && rail_V === null
        return low <= high && Math.max(a, b) * rail_V <= high * v * (1 + 1e-12)
      }),
    )
  })
  it('has a rail that never falls as its input rises', () => {
    const volts = fc.double({ min: 0, max: 12, noNaN: true })
    fc.assert(
      fc.property(fc.constantFrom(...all), volts, volts, (regulator, a, b) => {
        const low = railVoltage_V(regulator, Math.min(a, b))
        const high = railVoltage_V(regulator, Math.max(a, b))
        return low === null || (high !== null && low <= high)
      }),
    )
  })
  it('refuses what cannot be', () => {
    expect(() => batteryCurrent_A(linear, -1, 3)).toThrow(RangeError)
    expect(() => batteryCurrent_A(linear, 1, -3)).toThrow(RangeError)
    const perpetual = { ...switching, kind: 'buck' as const, efficiency: curve([1e-6, 1], [0.5, 1.1]) }
    expect(() => efficiencyAt(perpetual, 0.1)).toThrow(/efficiency/)
    expect(() => efficiencyAt({ ...perpetual, efficiency: curve([0, 1], [0.5, 0.9]) }, 0.1)).toThrow(
      /above 0 A/,
    )
  })
})
