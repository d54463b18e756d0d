/** Column names from the lines above a table, also where these have a column more or less than its rows. */
import { fieldsOf } from './csv-fields.ts'
import { headerUnit } from './header-units.ts'

/** A line split into fields, as the rows of its table are or nearly so. */
export interface HeaderLine {
  readonly text: string
  readonly fields: readonly string[]
}

/**
 * The fields of a line above rows of `columns` columns, of which the first `filled` hold anything; null where they are
 * too many or too few. A separator inside brackets, `Current (mA, avg)`, is none; a unit alone, `I_bat, mA`, belongs to
 * the name before it; empty names and empty columns at the end are no difference.
 */
export function fittedFields(
  { text, fields }: HeaderLine,
  separator: string,
  columns: number,
  filled: number,
): readonly string[] | null {
  if (fields.length === columns) return fields
  const split = fieldsOf(text, separator)
  for (const each of [split, bracketsJoined(split, separator), unitsJoined(split)]) {
    const named = each.findLastIndex((field) => field !== '') + 1
    if (named > 1 && named <= columns && named >= filled)
      return Array.from({ length: columns }, (_, k) => each[k] ?? '')
  }
  return null
}

function bracketsJoined(fields: readonly string[], separator: string): string[] {
  const joined: string[] = []
  let open = false
  for (const field of fields) {
    if (open) joined.push(`${joined.pop()}${separator}${field}`)
    else joined.push(field)
    const all = joined[joined.length - 1]
    open = (all.match(/[([{]/g) ?? []).length > (all.match(/[)\]}]/g) ?? []).length
  }
  return joined
}

function unitsJoined(fields: readonly string[]): string[] {
  const joined: string[] = []
  for (const field of fields)
    if (joined.length > 0 && headerUnit(bare(field)) !== null) joined.push(`${joined.pop()} (${bare(field)})`)
    else joined.push(field)
  return joined
}

const bare = (field: string): string => field.replace(/^[([<]|[)\]>]$/g, '')

/** The last line before the data; a line of bare units under the names joins them. */
export function headerNames(before: readonly (readonly string[] | null)[]): readonly string[] {
  const last = before.at(-1) ?? []
  const above = before.at(-2)
  const onlyUnits = last.every((field) => field === '' || headerUnit(bare(field)) !== null)
  if (!onlyUnits || above?.length !== last.length) return last
  return last.map((unit, k) => (unit === '' ? above[k] : `${above[k]} (${bare(unit)})`))
}
