/** Bytes of a weather file to lines and fields. Never throws, whatever the bytes. */

/** The text as UTF-8, or as Latin-1 where it is none (older weather files name their site so); no byte-order mark. */
export function decodeText(bytes: Uint8Array | string): string {
  if (typeof bytes === 'string') return bytes.replace(/^\ufeff/, '')
  const text = new TextDecoder('utf-8').decode(bytes)
  return text.includes('\ufffd') ? new TextDecoder('latin1').decode(bytes) : text
}

export const linesOf = (text: string): string[] => text.split(/\r\n|\n|\r/)

/** Fields of one line, trimmed; quotes keep separators inside a field, and two of them stand for one (RFC 4180). */
export function fieldsOf(line: string, separator: string): string[] {
  if (!line.includes('"')) return line.split(separator).map((field) => field.trim())
  const fields: string[] = []
  let field = ''
  let quoted = false
  for (let i = 0; i < line.length; i++) {
    const c = line[i]
    if (c === '"' && quoted && line[i + 1] === '"') field += line[i++]
    else if (c === '"') quoted = !quoted
    else if (c === separator && !quoted) {
      fields.push(field.trim())
      field = ''
    } else field += c
  }
  fields.push(field.trim())
  return fields
}

/** A plain decimal number, or null for anything else (also an empty field). */
export function numberOf(field: string | undefined): number | null {
  if (field === undefined || !/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(field)) return null
  const value = Number(field)
  return Number.isFinite(value) ? value : null
}
