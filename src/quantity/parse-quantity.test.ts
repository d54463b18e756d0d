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
    // usual spellings with one meaning
    ['2 msec', 'duration', 0.002],
    ['2 usec', 'duration', 2e-6],
    ['30 secs', 'duration', 30],
    ['5 mins', 'duration', 300],
    ['2 hrs', 'duration', 7200],
    ['2 yrs', 'duration', 2 * 31_557_600],
    ['1.5 amps', 'current', 1.5],
    ['3 volts', 'voltage', 3],
    ['0.5 watt', 'power', 0.5],
    ['100 uf', 'capacitance', 100e-6],
    ['100 nf', 'capacitance', 100e-9],
    ['25 farads', 'capacitance', 25],
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
    // another spelling of the same: wrong case
    ['25 ma', 'current', /"25 mA"/],
    ['20 ua', 'current', /"20 µA"/],
    ['10 MA', 'current', /"10 mA"/],
    ['500 MAH', 'charge', /"500 mAh"/],
    ['3 mw', 'power', /"3 mW"/],
    ['4 KHZ', 'frequency', /"4 kHz"/],
    // its letter in place of the point, or the prefix alone
    ['4k7', 'resistance', /"4\.7 kΩ"/],
    ['4R7', 'resistance', /"4\.7 Ω"/],
    ['2u2', 'capacitance', /"2\.2 µF"/],
    ['3v3', 'voltage', /"3\.3 V"/],
    ['10k', 'resistance', /"10 kΩ"/],
    ['10 M', 'resistance', /"10 MΩ"/],
    // misspelt
    ['5 hurs', 'duration', /"5 hours"/],
    ['5 yeras', 'duration', /"5 years"/],
    ['2 Hz', 'rate', /"2 per second"/],
    // said better than by a list
    ['4 KB', 'dataSize', /KiB for 1024/],
    ['4 kb', 'dataSize', /a bit/],
    ['3 months', 'duration', /differ in length/],
    ['1 mo', 'duration', /differ in length/],
    ['2 % per month', 'rate', /differ in length.*per year/],
    ['2 kWh/m²', 'dailyIrradiation', /divide a month's sum/],
    ['100 mfd', 'capacitance', /microfarads/],
    ['100 mf', 'capacitance', /microfarads/],
    ['100 MF', 'capacitance', /microfarads/],
    ['50 °F', 'temperature', /subtract 32.*5\/9/],
    ['50 F', 'temperature', /subtract 32/],
    ['9 degF', 'temperatureDifference', /multiply by 5\/9/],
    // another quantity: how the one follows from the other
    ['8.6 Wh', 'charge', /divide the energy by the nominal voltage, and use one of Ah, mAh/],
    ['33 mW', 'current', /divide the power by its voltage, and use one of A, mA/],
    ['273 K', 'temperature', /subtract 273\.15/],
    ['5 m', 'duration', /write min for minutes/],
    ['500 MAH', 'current', /divide the charge by the time/],
    ['20 zonk', 'current', /^use one of A, mA, µA, nA, pA$/],
    // commas
    ['0,7 mA', 'current', /"0\.7"$/],
    ['1,000 mA', 'current', /"1\.000" or "1000"/],
    ['1,000,000 Ω', 'resistance', /"1000000"/],
    ['20–35 mA', 'current', /"20\.\.35 mA"/],
  ])('"%s" as %s: the cure is %s', (text, dimension, cure) => {
    expect(problem(text, dimension).cure).toMatch(cure)
  })

  it.each<[string, Dimension]>([
    ['25 mAh', 'current'],
    ['500 mA', 'charge'],
    ['8.6 Wh', 'charge'],
    ['2 Ah', 'energy'],
    ['2 Wh', 'power'],
    ['2 W', 'energy'],
    ['33 mW', 'current'],
    ['273 K', 'temperature'],
    ['5 m', 'duration'],
    ['1 mo', 'duration'],
    ['1 Ma', 'current'],
    ['3 Mv', 'voltage'],
    ['2 % per month', 'rate'],
    ['5 kHz', 'rate'],
    ['100 mfd', 'capacitance'],
    ['4 kb', 'dataSize'],
    ['12 dys', 'temperature'],
  ])('"%s" as %s: no number is offered that would be another quantity', (text, dimension) => {
    const [number] = text.split(' ')
    expect(problem(text, dimension).cure).not.toContain(`"${number}`)
  })

  it('says why a charge is not a current', () => {
    expect(problem('25 mAh', 'current').message).toBe(
      '"mAh" measures a charge, and a current is asked for: a charge is a current over a time',
    )
  })
})
