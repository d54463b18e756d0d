/**
 * Texts as YAML scalars: plain where YAML reads them so, else quoted, or as lines below a bar. Whether it does is asked of
 * the YAML reader itself, in the surroundings in which the text is to stand.
 */
import { parseDocument } from 'yaml'

/** Between the brackets of { } and [ ], where a comma or bracket ends a plain text; or on lines of their own. */
export type Style = 'flow' | 'block'

export type Quote = '"' | "'"

/** What a text says: itself, or the number or truth that YAML takes it for. */
export type ScalarValue = string | number | boolean

/** What YAML reads where `text` stands plain behind a key; undefined where it reads no single value, or nothing. */
function plainValue(text: string, style: Style): ScalarValue | undefined {
  if (text === '' || UNSEEN.test(text)) return undefined
  const value = soundly(style === 'flow' ? `{ k: ${text} }` : `k: ${text}`)?.k
  if (typeof value === 'string') return value === text ? value : undefined
  // With a blank in it there is more than the number: a comment, a tag.
  const isBare = typeof value === 'number' || typeof value === 'boolean' ? !text.includes(' ') : false
  return isBare ? (value as number | boolean) : undefined
}

function soundly(source: string): Readonly<Record<string, unknown>> | null {
  const yaml = parseDocument(source, { prettyErrors: false, version: '1.2', logLevel: 'error' })
  if (yaml.errors.length > 0 || yaml.warnings.length > 0) return null
  try {
    const data: unknown = yaml.toJS()
    return typeof data === 'object' && data !== null && Object.keys(data).length === 1
      ? (data as Record<string, unknown>)
      : null
  } catch (error) {
    if (error instanceof ReferenceError) return null // the text reads as an alias
    throw error
  }
}

/** What the text is read back as. `isText` keeps it a text where YAML would take it for a number, true or false. */
export function readsAs(text: string, isText: boolean): ScalarValue {
  const value = plainValue(text, 'block')
  return value === undefined || isText ? text : value
}

/**
 * The text on one line, in quotes only where it needs them to be read back as `readsAs` says, or where `habit` is the
 * quote that the file uses there without need.
 */
export function quoted(text: string, style: Style, isText = false, habit: Quote | null = null): string {
  const value = plainValue(text, style)
  const isPlain = value !== undefined && (typeof value === 'string' || !isText)
  if (isPlain && (habit === null || typeof value !== 'string')) return text
  return habit === "'" && !UNSEEN.test(text) ? `'${text.replaceAll("'", "''")}'` : doubleQuoted(text)
}

/** Line breaks, controls, marks and halves of characters, which would hide in a plain text. */
const UNSEEN = /[\p{Cc}\p{Cs}\u2028\u2029\ufeff\ufffe\uffff]/u

/** JSON's escapes are YAML's; what JSON leaves as it is and cannot be seen is written out too. */
const doubleQuoted = (text: string): string =>
  JSON.stringify(text).replace(
    new RegExp(UNSEEN, 'gu'),
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )

/** A key with its colon. */
export function keyed(key: string, style: Style): string {
  const line = UNSEEN.test(key) ? '' : `${key}: x`
  const data = soundly(style === 'flow' ? `{ ${line} }` : line)
  return `${data !== null && data[key] === 'x' ? key : doubleQuoted(key)}:`
}

/** A text of several lines as a literal block, its lines not yet indented; null where only quotes can hold it. */
export function literal(text: string): { readonly header: string; readonly lines: readonly string[] } | null {
  if (!text.includes('\n') || text.endsWith('\n\n')) return null
  const header = text.endsWith('\n') ? '|' : '|-'
  const lines = text.replace(/\n$/, '').split('\n')
  const read = soundly(`k: ${header}\n${lines.map((line) => line && `  ${line}`).join('\n')}\n`)
  return read?.k === text ? { header, lines } : null
}

/** The quote around a text that could stand plain anywhere: how the file likes to write. */
export function habitOf(written: string, value: unknown): Quote | null {
  const quote = written[0]
  if (quote !== '"' && quote !== "'") return null
  return typeof value === 'string' && plainValue(value, 'flow') !== undefined ? quote : null
}
