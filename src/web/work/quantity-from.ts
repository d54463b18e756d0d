/** What is typed into fields that are not of the file. An empty text asks for what is usual. */
import type { Dimension } from '../../quantity/dimension.ts'
import { type ListBounds, parseQuantities } from '../../quantity/parse-quantities.ts'
import { parseQuantity } from '../../quantity/parse-quantity.ts'

/** A value, null for what is usual; or what is wrong, in a sentence. */
export interface Typed<T> {
  readonly value: T | null
  readonly problem: string | null
}

const USUAL = { value: null, problem: null }
const wrong = (problem: string) => ({ value: null, problem })

/** One quantity in base units; `wanted` says what, with its bounds: `A share from 50 % to 99.5 %`. */
export function quantityFrom(
  text: string,
  dimension: Dimension,
  { low, high, wanted }: { readonly low: number; readonly high: number; readonly wanted: string },
): Typed<number> {
  if (text.trim() === '') return USUAL
  const parsed = parseQuantity(text.trim(), dimension)
  if (!parsed.ok) return wrong(`${wanted} is wanted: ${parsed.problem.message}.`)
  const isInside = parsed.value >= low && parsed.value <= high
  return isInside ? { value: parsed.value, problem: null } : wrong(`${wanted} is wanted.`)
}

/** Several, behind one another. */
export function quantitiesFrom(
  text: string,
  dimension: Dimension,
  bounds: ListBounds,
): Typed<readonly number[]> {
  if (text.trim() === '') return USUAL
  const list = parseQuantities(text, dimension, bounds)
  return list.ok ? { value: list.values, problem: null } : wrong(`Not so: ${list.why}`)
}

export function wholeNumberFrom(text: string, low: number, high: number): Typed<number> {
  if (text.trim() === '') return USUAL
  const value = Number(text)
  return Number.isSafeInteger(value) && value >= low && value <= high
    ? { value, problem: null }
    : wrong(`A whole number from ${low} to ${high} is wanted.`)
}

export const SHARE_TO_SURVIVE = { low: 0.5, high: 0.995, wanted: 'A share from 50 % to 99.5 %' }
