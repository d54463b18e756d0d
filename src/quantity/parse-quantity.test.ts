import { describe, expect, it } from 'vitest'
import { DIMENSIONS, type Dimension } from './dimension.ts'
import { parseQuantity } from './parse-quantity.ts'
import { ALL_DIMENSIONS } from './unit.ts'

const value = (text: string, dimension: Dimension) => {
  const result = parseQuantity(text, dimension)
  return result.ok ? result.value : result.problem
}
const problem = (text: string, dimension: Dimension) => {
  const result = parseQuantity(text, dimension)
  if (result.ok) throw new Error(`"${text}" was read as ${result.value}`)
  return result.problem
}

describe('a quantity', () => {
  // Definitions: SI brochure (BIPM, 9th edition) tables 4, 7 and 8; IEC 80000-13 for KiB. A year is 365.25 d.
  it.each<[string, Dimension, number]>([
    ['0.7 mA', 'current', 0.0007],
    ['720 µA', 'current', 0.00072],
    ['720 \u03bcA', 'current', 0.00072],
    ['720uA', 'current', 0.00072],
    ['−2.5e-3 A', 'current', -0.0025],
    ['.5 nA', 'current', 5e-10],
    ['3.3V', 'voltage', 3.3],
    ['250 mW', 'power', 0.25],
    ['2 MW', 'power', 2e6],
    ['4.7 k\u2126', 'resistance', 4700],
    ['4.7 kohm', 'resistance', 4700],
    ['1 MOhm', 'resistance', 1e6],
    ['470 uF', 'capacitance', 470e-6],
    ['500 mAh', 'charge', 1800],
    ['3 µAh', 'charge', 0.0108],
    ['197 mC', 'charge', 0.197],
    ['2 Wh', 'energy', 7200],
    ['5 mJ', 'energy', 0.005],
    ['8 ms', 'duration', 0.008],
    ['5 min', 'duration', 300],
    ['4 days', 'duration', 345600],
    ['2 weeks', 'duration', 1209600],
    ['10 years', 'duration', 315576000],
    ['-10 °C', 'temperature', -10],
    ['-10 C', 'temperature', -10],
    ['15 K', 'temperatureDifference', 15],
    ['90 %', 'ratio', 0.9],
    ['0.9', 'ratio', 0.9],
    ['20 ppm', 'ratio', 20e-6],
    ['32.768 kHz', 'frequency', 32768],
    ['4 KiB', 'dataSize', 4096],
    ['4 kB', 'dataSize', 4000],
    ['1000 W/m2', 'irradiance', 1000],
    ['2.5 kWh/m²/d', 'dailyIrradiation', 9e6],
    ['2.5 kWh/(m² d)', 'dailyIrradiation', 9e6],
    ['9 MJ/m^2/day', 'dailyIrradiation', 9e6],
    ['35 cm', 'length', 0.35],
    ['35°', 'angle', 35],
    ['35 deg', 'angle', 35],
    ['24 per day', 'rate', 24 / 86400],
    ['24/d', 'rate', 24 / 86400],
    ['36 /h', 'rate', 0.01],
    ['250 g', 'mass', 0.25],
    ['1 kg', 'mass', 1],
    ['-0.3 %/°C', 'ratioPerKelvin', -0.003],
    ['-0.3 % per K', 'ratioPerKelvin', -0.003],
    ['-2 mV/K', 'voltagePerKelvin', -0.002],
    ['6', 'count', 6],
    ['0', 'current', 0],
  ])('"%s" as %s', (text, dimension, expected) => {
    expect(value(text, dimension)).toBeCloseTo(expected, 15 - Math.ceil(Math.log10(Math.abs(expected) + 1)))
    expect(value(`  ${text} `, dimension)).toEqual(value(text, dimension))
  })

  it('is the double nearest to what decimal prefixes say', () => {
    expect(value('720 µA', 'current')).toBe(0.00072)
    expect(value('0.3 mV', 'voltage')).toBe(0.0003)
    expect(value('1.1e2 %', 'ratio')).toBe(1.1)
  })

  it('reads the example of every dimension', () => {
    for (const dimension of ALL_DIMENSIONS)
      expect(parseQuantity(DIMENSIONS[dimension].example, dimension).ok, dimension).toBe(true)
  })
})

describe('what is wrong', () => {
  it.each<[string, Dimension, string, string]>([
    ['', 'current', 'number-missing', ''],
    ['mA', 'current', 'number-missing', 'mA'],
    ['about 5 mA', 'current', 'number-malformed', 'about 5 mA'],
    ['1.2.3 mA', 'current', 'number-malformed', '1.2.3 mA'],
    ['1_000 mA', 'current', 'number-malformed', '1_000 mA'],
    ['1 000 mA', 'current', 'number-malformed', '1 000 mA'],
    ['1 h 30 min', 'duration', 'unit-unknown', 'h 30 min'],
    ['1e999 A', 'current', 'number-malformed', '1e999 A'],
    ['1e308 kV', 'voltage', 'number-too-large', '1e308 kV'],
    [' -1e308 years', 'duration', 'number-too-large', '-1e308 years'],
    ['0,7 mA', 'current', 'decimal-comma', '0,7'],
    ['20', 'current', 'unit-missing', '20'],
    ['0', 'temperature', 'unit-missing', '0'],
    ['20 zonk', 'current', 'unit-unknown', 'zonk'],
    [' 25 mAh', 'current', 'unit-wrong-dimension', 'mAh'],
    ['6 mA', 'count', 'unit-not-wanted', 'mA'],
    ['20-35 mA', 'current', 'tolerance-malformed', '20-35 mA'],
    ['20 to 35 mA', 'current', 'tolerance-malformed', '20 to 35 mA'],
  ])('"%s" as %s: %s at "%s"', (text, dimension, code, at) => {
    const found = problem(text, dimension)
    expect(found.code).toBe(code)
    expect(text.slice(found.start, found.end)).toBe(at)
  })

  it.each<[string, Dimension, RegExp]>([
    // mixed up: the one that was meant
    ['25 mAh', 'current', /"25 mA"/],
    ['500 mA', 'charge', /"500 mAh"/],
    ['2 Wh', 'power', /"2 W"/],
    ['2 W', 'energy', /"2 Wh"/],
    ['2 Wh', 'charge', /"2 Ah"/],
    ['2 Ah', 'energy', /"2 Wh"/],
    ['5 m', 'duration', /"5 min"/],
    ['20 K', 'temperature', /"20 °C"/],
    // wrong case
    ['25 ma', 'current', /"25 mA"/],
    ['500 MAH', 'charge', /"500 mAh"/],
    ['500 MAH', 'current', /"500 mA"/],
    ['3 mw', 'power', /"3 mW"/],
    // misspelt
    ['10k', 'resistance', /"10 kΩ"/],
    ['5 hurs', 'duration', /"5 hours"/],
    ['2 kWh/m²', 'dailyIrradiation', /"2 kWh\/m²\/d"/],
    // said better than by the nearest word
    ['4 KB', 'dataSize', /KiB for 1024/],
    ['3 months', 'duration', /differ in length/],
    ['50 °F', 'temperature', /convert/],
    // commas
    ['0,7 mA', 'current', /"0\.7"$/],
    ['1,000 mA', 'current', /"1\.000" or "1000"/],
    ['1,000,000 Ω', 'resistance', /"1000000"/],
    ['20–35 mA', 'current', /"20\.\.35 mA"/],
  ])('"%s" as %s: the cure is %s', (text, dimension, cure) => {
    expect(problem(text, dimension).cure).toMatch(cure)
  })

  it('says why a charge is not a current', () => {
    expect(problem('25 mAh', 'current').message).toBe(
      '"mAh" measures a charge, and a current is asked for: a charge is a current over a time',
    )
  })
})
