/** Quantities behind one another, `400 mAh, 1 Ah`, as options and fields take them. */
import type { Dimension } from './dimension.ts'
import { parseQuantity } from './parse-quantity.ts'

export type QuantityList =
  | { readonly ok: true; readonly values: readonly number[] }
  | { readonly ok: false; readonly why: string }

export interface ListBounds {
  readonly low: number
  readonly high: number
  /** The bounds in words: `each cell from 1 mAh to 1000 Ah`. */
  readonly range: string
}

/** No list that a person writes is longer. */
const MOST = 24

/**
 * In base units and in rising order, whatever the order they stand in. Refuses an empty place, a value out of bounds or
 * twice, and more of them than anyone would write; `why` is a sentence.
 */
export function parseQuantities(text: string, dimension: Dimension, bounds: ListBounds): QuantityList {
  const parts = text.split(',').map((part) => part.trim())
  if (parts.length > MOST) return wrong(`at most ${MOST} are wanted, not ${parts.length}.`)
  const values: number[] = []
  for (const [i, part] of parts.entries()) {
    if (part === '')
      return wrong(
        parts.length === 1 ? 'it is empty.' : `nothing stands in place ${i + 1} of ${parts.length}.`,
      )
    const parsed = parseQuantity(part, dimension)
    if (!parsed.ok) return wrong(`${parsed.problem.message} (expected ${parsed.problem.expected}).`)
    if (!(parsed.value >= bounds.low && parsed.value <= bounds.high))
      return wrong(`${bounds.range} is wanted.`)
    const first = values.indexOf(parsed.value)
    if (first >= 0)
      return wrong(
        parts[first] === part
          ? `"${part}" stands in it twice.`
          : `"${parts[first]}" and "${part}" are the same.`,
      )
    values.push(parsed.value)
  }
  return { ok: true, values: values.sort((a, b) => a - b) }
}

const wrong = (why: string): QuantityList => ({ ok: false, why })

/** What cells, panels and intervals of a frontier may be. */
export const CELLS: ListBounds = { low: 3.6, high: 3.6e6, range: 'each cell from 1 mAh to 1000 Ah' }
export const PANELS: ListBounds = { low: 1e-3, high: 1e4, range: 'each panel from 1 mW to 10 kW' }
export const INTERVALS: ListBounds = { low: 1, high: 366 * 86_400, range: 'each interval from 1 s to a year' }
