/** A number with its unit, as people write it: `0.7 mA`, `500mAh`, `4.7 kΩ`, `6 per day`. */
import type { Dimension } from './dimension.ts'
import { readPart, valueOfPart } from './part.ts'
import type { Parsed } from './problem.ts'

/**
 * The value of `text` in base units of `dimension`. Decimal point only; exponents allowed; a blank between number and
 * unit or none. Never throws and never guesses: what is not plainly right is a problem with its place and cure.
 */
export function parseQuantity(text: string, dimension: Dimension): Parsed<number> {
  const part = readPart(text, 0, text.length, dimension)
  return part.ok ? valueOfPart(part.value, dimension) : part
}
