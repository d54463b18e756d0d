/** Finding a unit by any of its usual spellings, and taking numbers into base units and back. */
import type { Dimension } from './dimension.ts'
import { PREFIX_EXPONENTS, UNIT_FAMILIES } from './unit-table.ts'

export interface Unit {
  readonly symbol: string
  /** Decimal exponent, kept apart from `factor` so that `720 µA` is the double nearest to 0.00072. */
  readonly exponent: number
  readonly factor: number
}

const SHORT: Readonly<Record<string, string>> = {
  day: 'd',
  hour: 'h',
  minute: 'min',
  second: 's',
  yr: 'year',
}

/** One spelling for look-ups: micro, ohm and square signs, `u` for µ, `per day` as `/d`, per °C as per kelvin. */
export const canonical = (text: string): string =>
  text
    .replaceAll('\u03bc', 'µ')
    .replaceAll('\u2126', 'Ω')
    .replaceAll('℃', '°C')
    .replace(/^u(?=\S)/, 'µ')
    .replace(/m\^?2/, 'm²')
    .replace(/\((.*)\)/, '$1')
    .replace(/m²\s*[·*\s]\s*d/, 'm²/d')
    .replace(/\s*\bper\s+/g, '/')
    .replace(/\s*\/\s*/g, '/')
    .replace(/\/(day|hour|minute|second|yr)\b/g, (_, word: string) => `/${SHORT[word]}`)
    .replace(/\/(°C|degC)$/, '/K')

function unitsOf(dimension: Dimension): Map<string, Unit> {
  const units = new Map<string, Unit>()
  for (const { names, prefixes, exponent, factor } of UNIT_FAMILIES[dimension])
    for (const prefix of ['', ...prefixes])
      for (const name of names) {
        const symbol = prefix + name
        units.set(canonical(symbol), { symbol, exponent: exponent + (PREFIX_EXPONENTS[prefix] ?? 0), factor })
      }
  return units
}

export const ALL_DIMENSIONS = Object.keys(UNIT_FAMILIES) as Dimension[]
const UNITS = new Map(ALL_DIMENSIONS.map((dimension) => [dimension, unitsOf(dimension)]))

/** The unit of `dimension` spelt `text`; null where there is none. The empty text is the unit of a plain number. */
export const findUnit = (text: string, dimension: Dimension): Unit | null =>
  UNITS.get(dimension)?.get(canonical(text)) ?? null

/** The first dimension that has a unit spelt `text`; null where none has. */
export const dimensionOf = (text: string): Dimension | null =>
  ALL_DIMENSIONS.find((dimension) => findUnit(text, dimension) !== null) ?? null

/** All spellings of the units of a dimension. */
export const unitNames = (dimension: Dimension): string[] =>
  [...(UNITS.get(dimension)?.values() ?? [])].map((unit) => unit.symbol).filter((symbol) => symbol !== '')

/** Whether a number of this dimension may stand without a unit. */
export const takesBareNumber = (dimension: Dimension): boolean => findUnit('', dimension) !== null

/** The decimal number `text` times 10^places, rounded once. */
function shifted(text: string, places: number): number {
  const [mantissa, exponent = '0'] = text.toLowerCase().split('e')
  return Number(`${mantissa}e${Number(exponent) + places}`)
}

/** The decimal number `text` of `unit`, in base units. */
export const toBase = (text: string, unit: Unit): number => shifted(text, unit.exponent) * unit.factor

/** `value` in base units as a number of `unit`. */
export const fromBase = (value: number, unit: Unit): number =>
  shifted((value / unit.factor).toExponential(), -unit.exponent)

/** A number and its unit as the SI brochure writes them (5.4.3): a space between, but not before the sign of a degree. */
export const withUnit = (decimal: string, symbol: string): string =>
  symbol === '' || symbol === '°' ? `${decimal}${symbol}` : `${decimal} ${symbol}`
