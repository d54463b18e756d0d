import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Dimension } from './dimension.ts'
import { formatQuantity } from './format.ts'
import { formatMeasured } from './measured.ts'
import { parseQuantity } from './parse-quantity.ts'
import { parseUncertain } from './parse-uncertain.ts'
import { ALL_DIMENSIONS } from './unit.ts'

describe('formatQuantity', () => {
  it.each<[number, Dimension, number, string]>([
    [0.00072, 'current', 3, '720 µA'],
    [0.00099996, 'current', 3, '1 mA'],
    [0, 'current', 3, '0 A'],
    [-0.0025, 'current', 3, '-2.5 mA'],
    [86400, 'duration', 3, '1 d'],
    [90, 'duration', 3, '1.5 min'],
    [0.008, 'duration', 3, '8 ms'],
    [31557600, 'duration', 3, '1 year'],
    [315576000, 'duration', 3, '10 years'],
    [3600, 'charge', 3, '1 Ah'],
    [1800, 'charge', 3, '500 mAh'],
    [0.197, 'charge', 3, '197 mC'],
    [7200, 'energy', 3, '2 Wh'],
    [4700, 'resistance', 2, '4.7 kΩ'],
    [0.5, 'ratio', 2, '50 %'],
    [20e-6, 'ratio', 2, '20 ppm'],
    [4096, 'dataSize', 4, '4 KiB'],
    [4000, 'dataSize', 4, '4 kB'],
    [1000, 'irradiance', 3, '1000 W/m²'],
    [9e6, 'dailyIrradiation', 3, '2.5 kWh/m²/d'],
    [24 / 86400, 'rate', 3, '1 per hour'],
    [6 / 86400, 'rate', 3, '6 per day'],
    [35, 'angle', 3, '35°'],
    [-12.34, 'temperature', 3, '-12.3 °C'],
    [-0.003, 'ratioPerKelvin', 2, '-0.3 %/K'],
    [6, 'count', 3, '6'],
  ])('%d as %s to %d digits is "%s"', (value, dimension, digits, text) => {
    expect(formatQuantity(value, dimension, { digits })).toBe(text)
  })

  it.each(ALL_DIMENSIONS)('of %s reads back as what was written', (dimension) => {
    const value = fc
      .double({ min: -1e12, max: 1e12, noNaN: true })
      .filter((x) => x === 0 || Math.abs(x) > 1e-15)
    const back = (text: string) => {
      const result = parseQuantity(text, dimension)
      return result.ok ? result.value : Number.NaN
    }
    fc.assert(
      fc.property(value, fc.integer({ min: 1, max: 15 }), (x, digits) => {
        const size = Math.abs(x)
        expect(Math.abs(back(formatQuantity(x, dimension)) - x)).toBeLessThanOrEqual(4e-16 * size)
        const text = formatQuantity(x, dimension, { digits })
        // Rounded in the unit shown, so half a digit of the leading decade at worst.
        expect(Math.abs(back(text) - x)).toBeLessThanOrEqual(
          0.5000001 * 10 ** (1 - digits) * size + 4e-16 * size,
        )
        expect(formatQuantity(back(text), dimension, { digits })).toBe(text)
      }),
      { seed: 2, numRuns: 200 },
    )
  })

  it('refuses what is no number', () => {
    expect(() => formatQuantity(Number.NaN, 'current')).toThrow(RangeError)
    expect(() => formatMeasured(1, Number.NaN, 'current')).toThrow(RangeError)
    expect(() => formatMeasured(1, -1, 'current')).toThrow(RangeError)
  })
})

describe('formatMeasured', () => {
  // Digits by JCGM 100, 7.2.6; ± is the expanded uncertainty with k = 2 (6.2.1).
  it.each<[number, number, Dimension, string]>([
    [719.6e-6, 15e-6, 'current', '720 ± 30 µA'],
    [0.08192, 0.0003, 'current', '81.9 ± 0.6 mA'],
    [0.7124e-3, 0.05e-3, 'current', '710 ± 100 µA'],
    [0.7124e-3, 0.0485e-3, 'current', '710 ± 100 µA'],
    [1e-6, 20e-6, 'current', '0 ± 40 µA'],
    [-1e-6, 20e-6, 'current', '0 ± 40 µA'],
    [0.63, 0.002, 'ratio', '63.0 ± 0.4 %'],
    [0.0007124, 0, 'current', '712.4 µA'],
    [58.42, 0.05, 'angle', '58.42 ± 0.10°'],
    // What summing leaves behind is no uncertainty; nine digits and more are, where someone states them.
    [497.5, 2.5e-14, 'charge', '138.2 mAh'],
    [5e-3, 1e-18, 'current', '5 mA'],
    [1, 2e-9, 'duration', '1.000000000 ± 0.000000004 s'],
  ])('%d with u = %d as %s is "%s"', (value, u, dimension, text) => {
    expect(formatMeasured(value, u, dimension)).toBe(text)
  })

  it('means the same when it is copied into a file', () => {
    const read = parseUncertain(formatMeasured(0.0819, 0.0003, 'current'), 'current')
    expect(read).toEqual({ ok: true, value: { kind: 'normal', value: 0.0819, u: 0.0003 } })
  })
})
