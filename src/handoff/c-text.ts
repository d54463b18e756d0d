/** Pieces of C11 text: names, numbers, comments that nothing in a file's words can break out of. */

const C_WIDTH = 96

/** Upper-case name of a macro. */
export const macro = (prefix: string, name: string): string => `${prefix}_${name}`.toUpperCase()

/** Why `prefix` cannot begin C names; null where it can. */
export function prefixProblem(prefix: string): string | null {
  if (!/^[A-Za-z][A-Za-z0-9_]*$/.test(prefix))
    return 'it must be a letter, then letters, digits and underscores'
  if (prefix.includes('__')) return 'C keeps names with two underscores in a row to itself'
  if (prefix.endsWith('_')) return 'an underscore is put behind it anyway'
  return prefix.length > 31 ? 'C11 tells names apart by their first 31 characters (5.2.4.1)' : null
}

/** Words of a file inside a comment: no comment marks, no trigraphs, no control or direction characters. */
export const commentWords = (text: string): string =>
  text
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ')
    .replaceAll('\\', '/')
    .replace(/\*(?=\/)|\/(?=\*)|\?(?=\?)/g, '$& ')

/** A block comment of whole lines; each paragraph is wrapped. */
export function comment(...paragraphs: readonly string[]): string {
  const lines = paragraphs.flatMap((paragraph) => wrapped(commentWords(paragraph), C_WIDTH - 3))
  return lines.length === 1
    ? `/* ${lines[0]} */`
    : ['/*', ...lines.map((line) => ` * ${line}`.trimEnd()), ' */'].join('\n')
}

function wrapped(text: string, width: number): string[] {
  const lines: string[] = []
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1)
    if (last !== undefined && `${last} ${word}`.length <= width) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

export const define = (name: string, value: string): string => `#define ${name} ${value}`

export const uint16 = (value: number): string => `UINT16_C(${value})`
export const uint32 = (value: number): string => `UINT32_C(${value})`
export const uint64 = (value: number): string => `UINT64_C(${value})`
