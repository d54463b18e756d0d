/** A result with its standard uncertainty, in digits that mean something. */
import type { Dimension } from './dimension.ts'
import { inUnit, numbered, unitFor } from './format.ts'
import { fromBase, withUnit } from './unit.ts'

/** Digits of a result that has no uncertainty at all: what follows from exact inputs is still only a model's. */
const DIGITS_WHEN_EXACT = 4

/** Behind ± stands twice the standard uncertainty, as it does in a file (JCGM 100, 6.2.1, and 7.2.2 against ± u). */
const COVERAGE = 2

/** Less of a value than this is the rounding of sums of binary numbers: samples of 32 bits are kept to 6 parts in 10⁸. */
const LEAST_SHARE = 1e-9

/** Whether a standard uncertainty is none that was measured, beside its value. */
export const isRounding = (value: number, u: number): boolean => COVERAGE * u < LEAST_SHARE * Math.abs(value)

/**
 * `720 ± 30 µA`: `value` and its expanded uncertainty, both given in base units with `u` (>= 0) the standard uncertainty.
 * The uncertainty keeps two digits up to 35 and one above, and the value ends where it ends (JCGM 100, 7.2.6: two digits
 * at most; the limit of 35 is common practice in particle physics, from memory). Less than a billionth of the value is told
 * as no uncertainty. `unit` is the one to write in, where a column of results shares it. Throws RangeError where u is
 * negative or a number is not finite.
 */
export function formatMeasured(
  value: number,
  u: number,
  dimension: Dimension,
  unit = unitFor(Math.max(Math.abs(value), COVERAGE * u), dimension),
): string {
  if (!(u >= 0)) throw new RangeError(`a standard uncertainty is zero or more, not ${u}`)
  if (u === 0 || isRounding(value, u)) return inUnit(value, unit, DIGITS_WHEN_EXACT)
  const expanded = COVERAGE * u
  const spread = fromBase(expanded, unit)
  const place = lastPlace(spread)
  const number = `${atPlace(fromBase(value, unit), place)} ± ${atPlace(spread, place)}`
  return withUnit(number, numbered(unit.symbol, number))
}

/** Exponent of ten of the last digit worth writing. */
function lastPlace(u: number): number {
  const [leading, exponent] = u.toExponential(2).split('e')
  return Number(leading) < 3.55 ? Number(exponent) - 1 : Number(exponent)
}

/** `x` rounded to a multiple of 10^place, without a sign on zero. */
function atPlace(x: number, place: number): string {
  const text = place < 0 ? x.toFixed(-place) : String(Number(`${Math.round(x / 10 ** place)}e${place}`))
  return Number(text) === 0 ? text.replace('-', '') : text
}
