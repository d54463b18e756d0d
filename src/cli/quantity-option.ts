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

/** No list that a person writes is longer. */
const MOST = 24

/**
 * A parser of quantities behind one another, `400 mAh, 1 Ah`: in base units, in rising order whatever the order they stand
 * in. Refuses an empty place, the same value twice, and more of them than anyone would write.
 */
export function quantities(dimension: Dimension, low: number, high: number, range: string) {
  const read = quantity(dimension, low, high, range)
  return (text: string): number[] => {
    const parts = text.split(',').map((part) => part.trim())
    if (parts.length > MOST)
      throw new InvalidArgumentError(`at most ${MOST} are wanted, not ${parts.length}.`)
    const values = parts.map((part, i) => {
      if (part !== '') return read(part)
      throw new InvalidArgumentError(
        parts.length === 1 ? 'it is empty.' : `nothing stands in place ${i + 1} of ${parts.length}.`,
      )
    })
    const again = values.findIndex((value, i) => values.indexOf(value) < i)
    if (again >= 0) {
      const [first, second] = [parts[values.indexOf(values[again])], parts[again]]
      throw new InvalidArgumentError(
        first === second ? `"${first}" stands in it twice.` : `"${first}" and "${second}" are the same.`,
      )
    }
    return values.sort((a, b) => a - b)
  }
}

export const durations = quantities('duration', 1, 366 * 86_400, 'each interval from 1 s to a year')
