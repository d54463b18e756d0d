/** The fields of one line of a CSV text, as strings: for the few lines that settle how the others are read. */

/** The fields of a line, unquoted and trimmed; spaces in a row count as one separator. */
export function fieldsOf(text: string, separator: string): string[] {
  const fields: string[] = []
  let field = ''
  let quoted = false
  for (const c of separator === ' ' ? text.trim() : text) {
    if (c === '"') quoted = !quoted
    else if (c === separator && !quoted) {
      if (separator !== ' ' || field !== '') fields.push(field.trim())
      field = ''
    } else field += c
  }
  fields.push(field.trim())
  return fields
}

const NUMBER = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?$/i

/** The number in a field, NaN when it is none. A point is always read as the decimal mark. */
export function numberIn(field: string, mark: string): number {
  const grouped = ungrouped(field, mark)
  if (grouped !== null) return grouped
  if (!NUMBER.test(field) || (mark === '.' && field.includes(','))) return Number.NaN
  return Number(field.replace(',', '.'))
}

/** Digits in groups of three, with a mark between them that is not the decimal one. */
const GROUPED = {
  '.': /^[-+]?\d{1,3}(?:,\d{3})+\.\d*$|^[-+]?\d{1,3}(?:,\d{3}){2,}$|^[-+]?\d{1,3}(?:[ '’]\d{3})+(?:\.\d*)?$/,
  ',': /^[-+]?\d{1,3}(?:\.\d{3})+,\d*$|^[-+]?\d{1,3}(?:\.\d{3}){2,}$|^[-+]?\d{1,3}(?:[ '’]\d{3})+(?:,\d*)?$/,
}

/**
 * The number written with thousands apart, as `5,055.4` or `1.234.567,8`; null when it is none. One group alone, `5,055`,
 * could be a decimal as well, and is none.
 */
export function ungrouped(text: string, mark: string): number | null {
  if (!GROUPED[mark === ',' ? ',' : '.'].test(text)) return null
  return Number(text.replace(mark === ',' ? /[. '’]/g : /[, '’]/g, '').replace(',', '.'))
}
