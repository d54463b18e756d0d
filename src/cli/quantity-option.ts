/** Options that are quantities, written as in an outpost file. */
import { InvalidArgumentError } from 'commander'
import type { Dimension } from '../quantity/dimension.ts'
import { parseQuantity } from '../quantity/parse-quantity.ts'

/** A parser of `dimension` in base units that refuses what lies outside `low` to `high`, named in `range`. */
export function quantity(dimension: Dimension, low: number, high: number, range: string) {
  return (text: string): number => {
    const parsed = parseQuantity(text, dimension)
    if (!parsed.ok)
      throw new InvalidArgumentError(`${parsed.problem.message} (expected ${parsed.problem.expected}).`)
    if (!(parsed.value >= low && parsed.value <= high)) throw new InvalidArgumentError(`${range} is wanted.`)
    return parsed.value
  }
}

/** Durations behind one another, `15 min, 1 h, 6 h`, as seconds in rising order, each once. */
export function durations(text: string): number[] {
  const read = quantity('duration', 1, 366 * 86_400, 'each interval from 1 s to a year')
  const found = text.split(',').map((part) => read(part.trim()))
  return [...new Set(found)].sort((a, b) => a - b)
}
