/** Quantities as a person would write them: the unit that leaves a handy number, and no more digits than asked for. */
import type { Dimension } from './dimension.ts'
import { SHOWN_UNITS, type ShownUnit } from './shown-units.ts'
import { findUnit, fromBase, toBase, type Unit, withUnit } from './unit.ts'

export interface FormatOptions {
  /** Significant digits, 1 to 15, trailing zeros left out; without it as many as give the value back when parsed. */
  readonly digits?: number
}

/** `value` in base units as text that parses as `dimension`. Throws RangeError on a value that is not finite. */
export function formatQuantity(value: number, dimension: Dimension, { digits }: FormatOptions = {}): string {
  const rounded = digits === undefined ? value : Number(value.toPrecision(digits))
  return inUnit(value, unitFor(rounded, dimension), digits)
}

/** `value` in a unit already chosen. */
export function inUnit(value: number, unit: Unit, digits?: number): string {
  const number = decimal(value, unit, digits)
  return withUnit(number, numbered(unit.symbol, number))
}

/** The unit in which `value` is shown. Throws RangeError on a value that is not finite. */
export function unitFor(value: number, dimension: Dimension): Unit {
  if (!Number.isFinite(value)) throw new RangeError(`only a finite number can be written, not ${value}`)
  const shown = SHOWN_UNITS[dimension].map((entry) => ({ entry, unit: shownUnit(entry, dimension) }))
  const size = Math.abs(value)
  const fits = ({ entry, unit }: (typeof shown)[number]) =>
    size >= (entry.from ?? toBase('1', unit)) && (!entry.whole || Number.isInteger(fromBase(size, unit)))
  // Zero is shown in the base unit where there is one: 0 A, not 0 pA.
  const base = shown.find(({ unit }) => toBase('1', unit) === 1)
  return (size === 0 ? (base ?? shown[0]) : (shown.findLast(fits) ?? shown[0])).unit
}

/** The one year is a year. */
export const numbered = (symbol: string, number: string): string =>
  symbol === 'years' && number === '1' ? 'year' : symbol

function shownUnit({ symbol }: ShownUnit, dimension: Dimension): Unit {
  const unit = findUnit(symbol, dimension)
  if (unit === null) throw new RangeError(`"${symbol}" is no unit of ${dimension}`)
  return unit
}

function decimal(value: number, unit: Unit, digits: number | undefined): string {
  const number = fromBase(value, unit)
  if (digits !== undefined) return String(Number(number.toPrecision(digits)))
  // The division by an hour or a day leaves binary noise: the first decimal that leads back is the one meant.
  for (let precision = 15; precision <= 17; precision++) {
    const text = String(Number(number.toPrecision(precision)))
    if (toBase(text, unit) === value) return text
  }
  return String(number)
}
