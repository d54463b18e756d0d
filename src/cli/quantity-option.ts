/** Options that are quantities, written as in an outpost file. */
import { InvalidArgumentError } from 'commander'
import type { Dimension } from '../quantity/dimension.ts'
import { INTERVALS, type ListBounds, parseQuantities } from '../quantity/parse-quantities.ts'
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

/** A parser of quantities behind one another, `400 mAh, 1 Ah`, in base units and rising. */
export function quantities(dimension: Dimension, bounds: ListBounds) {
  return (text: string): readonly number[] => {
    const list = parseQuantities(text, dimension, bounds)
    if (!list.ok) throw new InvalidArgumentError(list.why)
    return list.values
  }
}

export const durations = quantities('duration', INTERVALS)
