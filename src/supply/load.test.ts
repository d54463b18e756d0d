import { describe, expect, it } from 'vitest'
import { operatingPoint } from './load.ts'

describe('operating point', () => {
  it('of a current drops I R: 15 mA through 20 Ω under 3.0 V leaves 2.7 V', () => {
    const point = operatingPoint({ kind: 'current', current_A: 0.015 }, 3, 20)!
    expect(point.voltage_V).toBeCloseTo(2.7, 12)
    expect(point.drop_V).toBeCloseTo(0.3, 12)
  })

  it('of a resistance divides the voltage', () => {
    const point = operatingPoint({ kind: 'resistance', resistance_Ohm: 3.9 }, 1.5, 0.1)!
    expect(point.current_A).toBeCloseTo(0.375, 12)
    expect(point.voltage_V).toBeCloseTo(1.4625, 12)
  })

  it('of a power takes the higher of two voltages, down to the matched one', () => {
    const point = operatingPoint({ kind: 'power', power_W: 1.5 }, 1.5, 0.2)!
    expect(point.current_A * point.voltage_V).toBeCloseTo(1.5, 12)
    expect(point.voltage_V).toBeGreaterThan(0.75)
    // E² / 4 R is the most a source gives (Jacobi): 1.5² / 0.8 = 2.8125 W.
    expect(operatingPoint({ kind: 'power', power_W: 2.8125 }, 1.5, 0.2)!.voltage_V).toBeCloseTo(0.75, 6)
    expect(operatingPoint({ kind: 'power', power_W: 2.82 }, 1.5, 0.2)).toBeNull()
    expect(operatingPoint({ kind: 'power', power_W: 3 }, 1.5, 0)!.current_A).toBe(2)
  })
})
