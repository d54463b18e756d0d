/** The units that the trade writes, in every usual spelling, with what makes of them the base unit. */
import type { Dimension } from './dimension.ts'

export interface Unit {
  /** As this project prints it. */
  readonly symbol: string
  /** Base units in one of these. */
  readonly factor: number
}

const PREFIXES = { p: 1e-12, n: 1e-9, µ: 1e-6, m: 1e-3, c: 1e-2, k: 1e3, M: 1e6, G: 1e9 } as const
type Prefix = keyof typeof PREFIXES

interface Family {
  readonly symbol: string
  readonly factor: number
  /** Prefixes that people put before the symbol. */
  readonly prefixes: readonly Prefix[]
  /** Other spellings, without prefix. */
  readonly spellings: readonly string[]
}

const family = (symbol: string, factor: number, prefixes = '', ...spellings: string[]): Family => ({
  symbol,
  factor,
  prefixes: [...prefixes] as Prefix[],
  spellings,
})

const DAY_s = 86_400
/** The Julian year of 365.25 days, which astronomy and the trade's "years" share. */
const YEAR_s = 365.25 * DAY_s

const FAMILIES: Readonly<Record<Dimension, readonly Family[]>> = {
  current: [family('A', 1, 'pnµmk', 'amp', 'amps', 'ampere', 'amperes')],
  voltage: [family('V', 1, 'µmk', 'volt', 'volts')],
  power: [family('W', 1, 'nµmkM', 'watt', 'watts')],
  resistance: [family('Ω', 1, 'mkM'), family('ohm', 1, 'mkM', 'ohms', 'Ohm', 'Ohms')],
  capacitance: [family('F', 1, 'pnµm', 'farad', 'farads')],
  charge: [family('Ah', 3600, 'nµmk', 'A·h'), family('C', 1, 'nµm', 'coulomb', 'coulombs')],
  energy: [family('Wh', 3600, 'µmkM', 'W·h'), family('J', 1, 'nµmkM', 'joule', 'joules')],
  duration: [
    family('s', 1, 'nµm', 'sec', 'second', 'seconds'),
    family('min', 60, '', 'minute', 'minutes'),
    family('h', 3600, '', 'hr', 'hour', 'hours'),
    family('d', DAY_s, '', 'day', 'days'),
    family('weeks', 7 * DAY_s, '', 'week'),
    family('years', YEAR_s, '', 'year', 'yr', 'yrs', 'a'),
  ],
  temperature: [family('°C', 1, '', 'degC', 'C')],
  temperatureDifference: [family('K', 1, 'm', 'kelvin', '°C', 'degC')],
  ratio: [family('%', 0.01, '', 'percent'), family('ppm', 1e-6), family('', 1)],
  frequency: [family('Hz', 1, 'mkMG', 'hertz')],
  dataSize: [
    family('B', 1, 'kMG', 'byte', 'bytes'),
    family('KiB', 1024),
    family('MiB', 1024 ** 2),
    family('GiB', 1024 ** 3),
  ],
  irradiance: [family('W/m²', 1, 'mk')],
  dailyIrradiation: [
    family('kWh/m²/d', 3.6e6, '', 'kWh/m²/day', 'kWh/(m²·d)'),
    family('Wh/m²/d', 3600, '', 'Wh/m²/day', 'Wh/(m²·d)'),
    family('MJ/m²/d', 1e6, '', 'MJ/m²/day', 'MJ/(m²·d)'),
  ],
  length: [family('m', 1, 'µmck', 'metre', 'metres', 'meter', 'meters')],
  angle: [family('°', 1, '', 'deg', 'degree', 'degrees'), family('rad', 180 / Math.PI)],
  rate: [
    family('/s', 1, '', 'per second'),
    family('/min', 1 / 60, '', 'per minute'),
    family('/h', 1 / 3600, '', 'per hour', '/hour'),
    family('/d', 1 / DAY_s, '', 'per day', '/day', 'a day'),
    family('/week', 1 / (7 * DAY_s), '', 'per week'),
    family('/year', 1 / YEAR_s, '', 'per year', '/yr', '/a'),
  ],
  mass: [family('kg', 1), family('g', 1e-3, 'µm', 'gram', 'grams')],
  ratioPerKelvin: [
    family('%/K', 0.01, '', '%/°C'),
    family('ppm/K', 1e-6, '', 'ppm/°C'),
    family('/K', 1, '', '/°C'),
  ],
  voltagePerKelvin: [family('V/K', 1, 'µm'), family('V/°C', 1, 'µm')],
  count: [family('', 1)],
}

/** One spelling for many: Greek and Latin mu and u, powers, the two ohm signs, inner spaces. */
export const normalised = (text: string): string =>
  text
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/[μµ]/g, 'µ')
    .replace(/Ω/g, 'Ω')
    .replace(/℃/g, '°C')
    .replace(/\^?2(?=$|[/·)])/g, '²')
    .replace(/^u(?=[A-Za-zΩ])/, 'µ')
    .replace(/(\S) ?\/ ?(\S)/g, '$1/$2')

const spelled = (families: readonly Family[]): ReadonlyMap<string, Unit> => {
  const units = new Map<string, Unit>()
  for (const { symbol, factor, prefixes, spellings } of families) {
    for (const spelling of [symbol, ...spellings]) units.set(spelling, { symbol, factor })
    for (const prefix of prefixes)
      units.set(prefix + symbol, { symbol: prefix + symbol, factor: factor * PREFIXES[prefix] })
  }
  return units
}

const UNITS = Object.fromEntries(
  Object.entries(FAMILIES).map(([dimension, families]) => [dimension, spelled(families)]),
) as Record<Dimension, ReadonlyMap<string, Unit>>

/** The unit so spelled, of that dimension; null where there is none. */
export const unitOf = (text: string, dimension: Dimension): Unit | null =>
  UNITS[dimension].get(normalised(text)) ?? null

/** Every dimension in which `text` is a unit. */
export const dimensionsOf = (text: string): Dimension[] =>
  (Object.keys(UNITS) as Dimension[]).filter((dimension) => UNITS[dimension].has(normalised(text)))

export const spellingsOf = (dimension: Dimension): string[] =>
  [...UNITS[dimension].keys()].filter((s) => s !== '')

/** A number and its unit as the SI brochure writes them (5.4.3): a space between, but not before the sign of a degree. */
export const withUnit = (decimal: string, symbol: string): string =>
  symbol === '' || symbol === '°' ? `${decimal}${symbol}` : `${decimal} ${symbol}`
