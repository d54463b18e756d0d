/** A result with its standard uncertainty, in digits that mean something. */
import type { Dimension } from './dimension.ts'
import { formatQuantity, numbered, unitFor } from './format.ts'
import { fromBase, withUnit } from './unit.ts'

/** Digits of a result that has no uncertainty at all: what follows from exact inputs is still only a model's. */
const DIGITS_WHEN_EXACT = 4

/**
 * `720 ± 30 µA`: `value` and its standard uncertainty `u` (>= 0), both in base units. The uncertainty keeps two digits
 * up to 35 and one above, and the value ends where it ends (JCGM 100, 7.2.6: two digits at most; the limit of 35
 * is common practice in particle physics, from memory). Throws RangeError where u is negative or not finite.
 */
export function formatMeasured(value: number, u: number, dimension: Dimension): string {
  if (!(u >= 0)) throw new RangeError(`a standard uncertainty is zero or more, not ${u}`)
  if (u === 0) return formatQuantity(value, dimension, { digits: DIGITS_WHEN_EXACT })
  const unit = unitFor(Math.max(Math.abs(value), u), dimension)
  const spread = fromBase(u, unit)
  const place = lastPlace(spread)
  const number = `${atPlace(fromBase(value, unit), place)} ± ${atPlace(spread, place)}`
  return withUnit(number, numbered(unit.symbol, number))
}

/** Exponent of ten of the last digit worth writing. */
function lastPlace(u: number): number {
  const [leading, exponent] = u.toPrecision(3).includes('e') ? split(u) : split(u)
  return Number(exponent) - (leading < 3.55 || leading >= 9.5 ? 1 : 0) + (leading >= 9.5 ? 1 : 0)
}
