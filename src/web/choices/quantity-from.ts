/** What is typed into a field that is not of the file; null where it is no such quantity. */
import type { Dimension } from '../../quantity/dimension.ts'
import { parseQuantity } from '../../quantity/parse-quantity.ts'

export function quantityFrom(text: string, dimension: Dimension): number | null {
  const parsed = parseQuantity(text.trim(), dimension)
  return parsed.ok ? parsed.value : null
}
