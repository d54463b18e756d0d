/**
 * The units of each dimension. A number times 10^exponent times `factor` is in base units: SI, but °C for a temperature,
 * degrees for an angle, J/m² a day for a daily irradiation. A year is 365.25 d; there are no months, which differ in
 * length. Prefixes as in the SI brochure (BIPM, 9th edition, table 7), KiB and so on as in IEC 80000-13.
 */
import type { Dimension } from './dimension.ts'

export interface UnitFamily {
  /** Spellings with one meaning; each takes every prefix. */
  readonly names: readonly string[]
  /** One letter each; the unit without a prefix is always there. */
  readonly prefixes: string
  readonly exponent: number
  readonly factor: number
}

const family = (names: string[], prefixes = '', factor = 1, exponent = 0): UnitFamily => ({
  names,
  prefixes,
  exponent,
  factor,
})

const HOUR_s = 3600
const DAY_s = 86400
const YEAR_s = 365.25 * DAY_s

export const PREFIX_EXPONENTS: Readonly<Record<string, number>> = {
  p: -12,
  n: -9,
  µ: -6,
  m: -3,
  c: -2,
  k: 3,
  M: 6,
  G: 9,
}

export const UNIT_FAMILIES: Readonly<Record<Dimension, readonly UnitFamily[]>> = {
  current: [family(['A'], 'pnµm'), family(['amp', 'amps', 'ampere', 'amperes'])],
  voltage: [family(['V'], 'nµmk'), family(['volt', 'volts'])],
  power: [family(['W'], 'pnµmkMG'), family(['watt', 'watts'])],
  resistance: [family(['Ω', 'ohm', 'Ohm', 'ohms'], 'µmkMG')],
  // No mf: old drawings write it for microfarads.
  capacitance: [family(['F'], 'pnµm'), family(['f'], 'pnµ'), family(['farad', 'farads'])],
  charge: [family(['C'], 'pnµmk'), family(['Ah'], 'nµmk', HOUR_s), family(['As'], 'µm')],
  energy: [family(['J'], 'pnµmkM'), family(['Wh'], 'nµmkM', HOUR_s)],
  duration: [
    family(['s', 'sec'], 'nµm'),
    family(['secs', 'second', 'seconds']),
    family(['min', 'mins', 'minute', 'minutes'], '', 60),
    family(['h', 'hr', 'hrs', 'hour', 'hours'], '', HOUR_s),
    family(['d', 'day', 'days'], '', DAY_s),
    family(['week', 'weeks'], '', 7 * DAY_s),
    family(['year', 'years', 'yr', 'yrs'], '', YEAR_s),
  ],
  temperature: [family(['°C', 'degC', 'C'])],
  temperatureDifference: [family(['K'], 'm'), family(['°C', 'degC', 'C'])],
  ratio: [
    family(['']),
    family(['%', 'percent'], '', 1, -2),
    family(['‰'], '', 1, -3),
    family(['ppm'], '', 1, -6),
  ],
  frequency: [family(['Hz'], 'mkMG')],
  dataSize: [
    family(['B'], 'kMG'),
    family(['byte', 'bytes']),
    family(['KiB'], '', 2 ** 10),
    family(['MiB'], '', 2 ** 20),
    family(['GiB'], '', 2 ** 30),
  ],
  irradiance: [family(['W/m²'], 'mk')],
  dailyIrradiation: [family(['J/m²/d'], 'kM'), family(['Wh/m²/d'], 'k', HOUR_s)],
  length: [family(['m'], 'nµmck')],
  angle: [family(['°', 'deg', 'degree', 'degrees']), family(['rad'], 'm', 180 / Math.PI)],
  rate: [
    family(['per second']),
    family(['per minute'], '', 1 / 60),
    family(['per hour'], '', 1 / HOUR_s),
    family(['per day'], '', 1 / DAY_s),
    family(['per week'], '', 1 / (7 * DAY_s)),
    family(['per year'], '', 1 / YEAR_s),
    family(['% per day'], '', 1 / DAY_s, -2),
    family(['% per week'], '', 1 / (7 * DAY_s), -2),
    family(['% per year'], '', 1 / YEAR_s, -2),
  ],
  mass: [family(['g'], 'µmk', 1, -3)],
  ratioPerKelvin: [family(['/K', '1/K']), family(['%/K'], '', 1, -2), family(['ppm/K'], '', 1, -6)],
  voltagePerKelvin: [family(['V/K'], 'µm')],
  count: [family([''])],
}
