/** Plain data as YAML text, on lines of its own or between brackets, as its neighbours are written. */
import { isCollection, isMap, isSeq, type Node } from 'yaml'
import type { Path } from './diagnostic.ts'
import { keyed, literal, type Quote, quoted, readsAs, type Style } from './edit-scalar.ts'
import { isTextField } from './edit-schema.ts'
import { isBlockCollection, pairOf } from './edit-tree.ts'

/**
 * What a form gives: texts as one would write them in the file, where a number among them is one. Null writes `null`;
 * an entry of a mapping whose text is empty is left out.
 */
export type PlainData =
  | string
  | number
  | boolean
  | null
  | readonly PlainData[]
  | { readonly [key: string]: PlainData }

/** How far the file indents. */
export interface Layout {
  /** Of a key below its mapping's key. */
  readonly step: number
  /** Of a dash below its list's key. */
  readonly listStep: number
}

export interface Writing {
  readonly layout: Layout
  /** The file's data as it will be, for the format to tell what is text. */
  readonly data: unknown
  /** Where the format does not tell, a number stays the text that it is now. */
  readonly isText: boolean
  /** Comments follow that a text running over lines would take for its own. */
  readonly isHemmedIn: boolean
}

/** How the neighbours of a value are written. */
export interface Manner {
  readonly style: Style
  /** Values whose entries' styles are followed, the nearest first. */
  readonly like: readonly Node[]
  readonly habit: Quote | null
}

export const BLOCK: Manner = { style: 'block', like: [], habit: null }
export const FLOW: Manner = { style: 'flow', like: [], habit: null }

/** A value behind its key or dash: what follows on that line, and full lines below. */
export interface Rendered {
  readonly inline: string
  readonly below: readonly string[]
}

const isList = (value: PlainData): value is readonly PlainData[] => Array.isArray(value)
const isMapping = (value: PlainData): value is { readonly [key: string]: PlainData } =>
  typeof value === 'object' && value !== null && !isList(value)

/** Without the entries whose text is empty. */
export function withoutBlanks(value: PlainData): PlainData {
  if (isList(value)) return value.filter((each) => each !== '').map(withoutBlanks)
  if (!isMapping(value)) return value
  const filled = Object.entries(value).filter(([, each]) => each !== '')
  return Object.fromEntries(filled.map(([key, each]) => [key, withoutBlanks(each)]))
}

/** What the value will be read back as. */
export function readBack(value: PlainData, path: Path, writing: Writing): unknown {
  if (isList(value)) return value.map((each, i) => readBack(each, [...path, i], writing))
  if (isMapping(value))
    return Object.fromEntries(
      Object.entries(value).map(([key, each]) => [key, readBack(each, [...path, key], writing)]),
    )
  return typeof value === 'string' ? readsAs(value, isText(value, path, writing)) : value
}

function isText(text: string, path: Path, { data, isText }: Writing): boolean {
  const plain = readsAs(text, false)
  return typeof plain !== 'string' && (isTextField(data, path, text, plain) ?? isText)
}

/** `column` is that of the key or dash, `head` which of the two it is. */
export function rendered(
  value: PlainData,
  path: Path,
  head: 'key' | 'dash',
  column: number,
  manner: Manner,
  writing: Writing,
): Rendered {
  const inside = column + (head === 'dash' ? 2 : writing.layout.step)
  const pad = ' '.repeat(inside)
  if (typeof value === 'string' && manner.style === 'block' && !writing.isHemmedIn) {
    const block = literal(value)
    if (block !== null) return { inline: block.header, below: block.lines.map((line) => line && pad + line) }
  }
  if (manner.style === 'flow' || !hasEntries(value))
    return { inline: inlineText(value, path, manner, writing), below: [] }
  const listColumn = column + (head === 'dash' ? 2 : writing.layout.listStep)
  const lines = isList(value)
    ? value.flatMap((each, i) =>
        entryLines('-', each, [...path, i], listColumn, mannerWithin(manner.like, 0), writing),
      )
    : Object.entries(value as { [key: string]: PlainData }).flatMap(([key, each]) =>
        entryLines(
          keyed(key, 'block'),
          each,
          [...path, key],
          inside,
          mannerWithin(manner.like, key),
          writing,
        ),
      )
  return head === 'dash'
    ? { inline: lines[0].trimStart(), below: lines.slice(1) }
    : { inline: '', below: lines }
}

const hasEntries = (value: PlainData): boolean =>
  isList(value) ? value.length > 0 : isMapping(value) && Object.keys(value).length > 0

/** The lines of one entry; `head` is its key with colon, or a dash. */
export function entryLines(
  head: string,
  value: PlainData,
  path: Path,
  column: number,
  manner: Manner,
  writing: Writing,
): string[] {
  const { inline, below } = rendered(value, path, head === '-' ? 'dash' : 'key', column, manner, writing)
  return [`${' '.repeat(column)}${head}${inline && ` ${inline}`}`, ...below]
}

/** On one line: a scalar, or a collection between brackets. */
export function inlineText(value: PlainData, path: Path, { style, habit }: Manner, writing: Writing): string {
  if (isList(value))
    return `[${value.map((each, i) => inlineText(each, [...path, i], FLOW, writing)).join(', ')}]`
  if (isMapping(value)) {
    const entries = Object.entries(value).map(([key, each]) =>
      flowEntry(key, each, [...path, key], FLOW, writing),
    )
    return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`
  }
  if (typeof value !== 'string') return String(value)
  return quoted(value, style, isText(value, path, writing), habit)
}

export const flowEntry = (
  key: string,
  value: PlainData,
  path: Path,
  manner: Manner,
  writing: Writing,
): string => `${keyed(key, 'flow')} ${inlineText(value, path, manner, writing)}`

/** How an entry is written within a value that is written like `like`. */
function mannerWithin(like: readonly Node[], part: string | number): Manner {
  const children = like.map((each) =>
    isMap(each) ? pairOf(each, String(part))?.value : isSeq(each) ? each.items[Number(part)] : null,
  )
  return mannerLike(children)
}

/** As the nearest of these that is a mapping or list is written; in block style where none is. */
export function mannerLike(like: readonly unknown[]): Manner {
  const collections = like.filter((each): each is Node => isCollection(each) && each.items.length > 0)
  const isFlow = collections.length > 0 && !isBlockCollection(collections[0])
  return isFlow ? FLOW : { style: 'block', like: collections, habit: null }
}
