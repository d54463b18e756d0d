import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Dimension } from './dimension.ts'
import { formatUncertain } from './format-uncertain.ts'
import { parseUncertain } from './parse-uncertain.ts'
import type { Uncertain } from './uncertain.ts'
import { ALL_DIMENSIONS } from './unit.ts'

const read = (text: string, dimension: Dimension): Uncertain => {
  const result = parseUncertain(text, dimension)
  if (!result.ok) throw new Error(JSON.stringify(result.problem))
  return result.value
}

describe('the tolerance grammar', () => {
  it.each<[string, Dimension, Uncertain]>([
    ['0.7 mA', 'current', { kind: 'exact', value: 0.0007 }],
    ['0.7 mA ± 0.1 mA', 'current', { kind: 'normal', value: 0.0007, u: 0.00005 }],
    ['0.7 mA +/- 0.1 mA', 'current', { kind: 'normal', value: 0.0007, u: 0.00005 }],
    ['0.7 ± 0.1 mA', 'current', { kind: 'normal', value: 0.0007, u: 0.00005 }],
    ['700 µA ± 0.1 mA', 'current', { kind: 'normal', value: 0.0007, u: 0.00005 }],
    ['25 mA ± 10 %', 'current', { kind: 'normal', value: 0.025, u: 0.00125 }],
    ['-4 V ± 10%', 'voltage', { kind: 'normal', value: -4, u: 0.2 }],
    ['32768 Hz ± 20 ppm', 'frequency', { kind: 'normal', value: 32768, u: 0.32768 }],
    ['90 % ± 5 %', 'ratio', { kind: 'normal', value: 0.9, u: 0.025 }],
    ['0.9 ± 0.05', 'ratio', { kind: 'normal', value: 0.9, u: 0.025 }],
    ['20 °C ± 5 K', 'temperature', { kind: 'normal', value: 20, u: 2.5 }],
    ['20 ± 5 °C', 'temperature', { kind: 'normal', value: 20, u: 2.5 }],
    ['20..35 mA', 'current', { kind: 'uniform', low: 0.02, high: 0.035 }],
    ['20 mA .. 35 mA', 'current', { kind: 'uniform', low: 0.02, high: 0.035 }],
    ['-20..-5 °C', 'temperature', { kind: 'uniform', low: -20, high: -5 }],
    ['5..10 %', 'ratio', { kind: 'uniform', low: 0.05, high: 0.1 }],
    ['0..5 %', 'ratio', { kind: 'uniform', low: 0, high: 0.05 }],
    ['< 10 mA', 'current', { kind: 'below', limit: 0.01 }],
    ['4 s [2 s, 9 s]', 'duration', { kind: 'skewed', typical: 4, p5: 2, p95: 9 }],
    ['4 s [2, 9]', 'duration', { kind: 'skewed', typical: 4, p5: 2, p95: 9 }],
    ['1 min [40 s, 2 min]', 'duration', { kind: 'skewed', typical: 60, p5: 40, p95: 120 }],
  ])('"%s" as %s', (text, dimension, expected) => {
    const found = read(text, dimension) as Record<string, unknown>
    for (const [key, wanted] of Object.entries(expected))
      if (typeof wanted === 'number') expect(found[key]).toBeCloseTo(wanted, 12)
      else expect(found[key]).toBe(wanted)
  })

  it.each<[string, Dimension, string, string]>([
    ['0.7 mA ± 0 mA', 'current', 'tolerance-not-positive', '0.7 mA ± 0 mA'],
    ['0.7 mA ± -1 mA', 'current', 'tolerance-not-positive', '0.7 mA ± -1 mA'],
    ['0 A ± 10 %', 'current', 'tolerance-not-positive', '0 A ± 10 %'],
    ['0.7 mA ±', 'current', 'number-missing', ''],
    ['0.7 ± 0.1', 'current', 'unit-missing', '0.7'],
    ['25 ± 10 %', 'current', 'unit-missing', '25'],
    ['0.7 mA ± 0.1 mAh', 'current', 'unit-wrong-dimension', 'mAh'],
    ['0.7 mA ± 0,1 mA', 'current', 'decimal-comma', '0,1'],
    ['20 °C ± 10 %', 'temperature', 'tolerance-malformed', '20 °C ± 10 %'],
    ['0.9 ± 5 %', 'ratio', 'unit-ambiguous', '0.9'],
    ['35..20 mA', 'current', 'range-reversed', '35..20 mA'],
    ['20..20 mA', 'current', 'range-empty', '20..20 mA'],
    ['20...35 mA', 'current', 'tolerance-malformed', '20...35 mA'],
    ['0...5 mA', 'current', 'tolerance-malformed', '0...5 mA'],
    ['20.. mA', 'current', 'number-missing', 'mA'],
    ['< 0 mA', 'current', 'limit-not-positive', '< 0 mA'],
    ['< 5 °C', 'temperature', 'tolerance-malformed', '< 5 °C'],
    ['4 s [5 s, 9 s]', 'duration', 'interval-misplaced', '4 s [5 s, 9 s]'],
    ['4 s [9 s, 2 s]', 'duration', 'interval-misplaced', '4 s [9 s, 2 s]'],
    ['4 s [2 s]', 'duration', 'tolerance-malformed', '4 s [2 s]'],
    ['4 s [2 s, 9 m]', 'duration', 'unit-wrong-dimension', 'm'],
  ])('"%s" as %s: %s at "%s"', (text, dimension, code, at) => {
    const result = parseUncertain(text, dimension)
    if (result.ok) throw new Error(JSON.stringify(result.value))
    expect(result.problem.code).toBe(code)
    expect(text.slice(result.problem.start, result.problem.end)).toBe(at)
  })
})

describe('any text', () => {
  it('is read or refused with a place inside it, and never throws', () => {
    const pieces = [
      '0',
      '7',
      '.',
      ',',
      '..',
      ' ',
      '±',
      '+/-',
      '-',
      '<',
      '[',
      ']',
      'e',
      '%',
      'm',
      'A',
      'h',
      '°C',
      '/',
      'K',
    ]
    const text = fc.oneof(
      fc.array(fc.constantFrom(...pieces), { maxLength: 12 }).map((parts) => parts.join('')),
      fc.string({ unit: 'grapheme', maxLength: 12 }),
    )
    fc.assert(
      fc.property(text, fc.constantFrom(...ALL_DIMENSIONS), (written, dimension) => {
        const result = parseUncertain(written, dimension)
        if (result.ok) {
          for (const part of Object.values(result.value))
            if (typeof part === 'number') expect(Number.isFinite(part)).toBe(true)
          return
        }
        const { start, end, message, cure, expected } = result.problem
        expect(0 <= start && start <= end && end <= written.length).toBe(true)
        for (const words of [message, cure, expected]) expect(words).not.toMatch(/undefined|NaN|^$/)
      }),
      { seed: 3, numRuns: 3000 },
    )
  })
})

const magnitude = fc
  .tuple(fc.integer({ min: 1000, max: 9999 }), fc.integer({ min: -12, max: 6 }))
  .map(([m, e]) => Number(`${m}e${e}`))

const uncertain: fc.Arbitrary<Uncertain> = fc.oneof(
  magnitude.map((limit) => ({ kind: 'below', limit }) as const),
  magnitude.map((value) => ({ kind: 'exact', value }) as const),
  fc.tuple(magnitude, magnitude).map(([value, u]) => ({ kind: 'normal', value, u }) as const),
  fc
    .tuple(magnitude, magnitude)
    .map(([low, more]) => ({ kind: 'uniform', low, high: low + more }) as const)
    .filter(({ low, high }) => high - low > 1e-12 * high),
  fc
    .tuple(magnitude, magnitude, magnitude)
    .map(([p5, a, b]) => ({ kind: 'skewed', p5, typical: p5 + a, p95: p5 + a + b }) as const)
    .filter(({ p5, typical, p95 }) => typical - p5 > 1e-12 * typical && p95 - typical > 1e-12 * p95),
)

describe('formatUncertain', () => {
  it.each(ALL_DIMENSIONS)('writes %s so that it reads the same', (dimension) => {
    fc.assert(
      fc.property(uncertain, (x) => {
        // No limit counts from 0 °C, so none is read or written.
        fc.pre(!(dimension === 'temperature' && x.kind === 'below'))
        const back = read(formatUncertain(x, dimension), dimension) as unknown as Record<string, number>
        for (const [key, value] of Object.entries(x))
          if (typeof value === 'number') expect(Math.abs(back[key] / value - 1)).toBeLessThan(1e-12)
          else expect(back[key]).toBe(value)
      }),
      { seed: 1, numRuns: 100 },
    )
  })

  it('uses one unit, as a person would', () => {
    expect(formatUncertain({ kind: 'normal', value: 0.0007, u: 0.00005 }, 'current')).toBe('700 µA ± 100 µA')
    expect(formatUncertain({ kind: 'uniform', low: -20, high: 5 }, 'temperature')).toBe('-20 °C..5 °C')
    expect(formatUncertain({ kind: 'below', limit: 0.01 }, 'current')).toBe('< 10 mA')
    expect(formatUncertain({ kind: 'skewed', typical: 4, p5: 2, p95: 9 }, 'duration')).toBe('4 s [2 s, 9 s]')
    expect(formatUncertain({ kind: 'exact', value: 1800 }, 'charge')).toBe('500 mAh')
  })
})
