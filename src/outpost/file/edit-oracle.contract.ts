/** What an edit must have done, as the YAML library's own document, tokens and reading say; for the tests of edits. */
import {
  type CST,
  type Document,
  isMap,
  isPair,
  isSeq,
  Lexer,
  type Node,
  Parser,
  parse,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml'
import type { Path } from './diagnostic.ts'
import type { Edited } from './splice.ts'

/** The text of an edit that was made. */
export function textOf(result: Edited): string {
  if (!result.ok) throw new Error(`${result.path.join('.')}: ${result.why}`)
  return result.text
}

/** Reads without an error or warning, or throws. */
export const dataIn = remembered((text: string): unknown => {
  const { errors, warnings } = parseDocument(text)
  const [first] = [...errors, ...warnings]
  if (first !== undefined) throw new Error(`${first.message}\n${text}`)
  return parse(text, { logLevel: 'error' }) ?? {}
})

/** What the library's own document says after its own change. */
export function dataAfter(text: string, change: (yaml: Document) => void): unknown {
  const yaml = parseDocument(text)
  change(yaml as Document)
  return yaml.toJS() ?? {}
}

/** The entry that a path leads to: its mapping or list, and which of its entries it is; −1 where it is not there. */
function entryAt(yaml: Document, path: Path): { readonly owner: YAMLMap | YAMLSeq; readonly index: number } {
  let owner: unknown = yaml.contents
  for (const [depth, part] of path.entries()) {
    if (!isMap(owner) && !isSeq(owner)) throw new Error('nothing there')
    const index = isMap(owner)
      ? owner.items.findIndex(({ key }) => String(key) === String(part))
      : Number(part)
    if (depth === path.length - 1) return { owner, index }
    const item: unknown = owner.items[index]
    owner = isPair(item) ? item.value : item
  }
  throw new Error('no path')
}

/** A value at a path of which all but the last part is there. */
export function setAt(yaml: Document, path: Path, value: unknown): void {
  const { owner, index } = entryAt(yaml, path)
  if (isMap(owner) && index < 0) owner.items.push(yaml.createPair(path.at(-1), value))
  else if (isMap(owner)) owner.items[index].value = yaml.createNode(value)
  else owner.items[index] = yaml.createNode(value)
}

/** Removes what is at the path, and what that leaves empty. */
export function deleteAt(yaml: Document, path: Path): void {
  for (let depth = path.length; depth > 0; depth--) {
    const { owner, index } = entryAt(yaml, path.slice(0, depth))
    owner.items.splice(index, 1)
    if (owner.items.length > 0) return
  }
}

export function insertAt(yaml: Document, path: Path, index: number, value: unknown): void {
  entryAt(yaml, [...path, index]).owner.items.splice(index, 0, yaml.createNode(value) as never)
}

export function moveAt(yaml: Document, path: Path, from: number, to: number): void {
  const { items } = entryAt(yaml, [...path, from]).owner
  items.splice(to, 0, ...(items.splice(from, 1) as never[]))
}

/** Every comment of a text, sorted. */
export const commentsIn = remembered((text: string): readonly string[] => {
  const found: string[] = []
  const collect = (value: unknown): void => {
    if (Array.isArray(value)) for (const each of value) collect(each)
    else if (typeof value === 'object' && value !== null) {
      const token = value as CST.Token
      if (token.type === 'comment') found.push(token.source)
      else for (const each of Object.values(token)) collect(each)
    }
  }
  const parser = new Parser()
  for (const lexeme of new Lexer().lex(text)) for (const token of parser.next(lexeme)) collect(token)
  for (const token of parser.end()) collect(token)
  return found.sort()
})

/** The paths of everything in a file: its single values, mappings and lists. */
export interface Places {
  readonly scalars: readonly Path[]
  readonly maps: readonly Path[]
  readonly lists: readonly Path[]
}

export function placesIn(text: string): Places {
  const places = { scalars: [] as Path[], maps: [] as Path[], lists: [] as Path[] }
  const visit = (value: unknown, path: Path): void => {
    if (Array.isArray(value)) {
      places.lists.push(path)
      for (const [i, each] of value.entries()) visit(each, [...path, i])
    } else if (typeof value === 'object' && value !== null) {
      places.maps.push(path)
      for (const [key, each] of Object.entries(value)) visit(each, [...path, key])
    } else places.scalars.push(path)
  }
  visit(parse(text) ?? {}, [])
  return places
}

/** The lines of a text that hold an entry, key and all, from 0. */
export function linesOfValue(text: string, path: Path): readonly [first: number, last: number] {
  const { owner, index } = entryAt(parseDocument(text) as Document, path)
  const item: unknown = owner.items[index]
  const [key, value] = (isPair(item) ? [item.key, item.value] : [item, item]) as (Node | null)[]
  const start = key?.range?.[0] ?? 0
  const end = Math.max(value?.range?.[1] ?? start, start + 1)
  const keepsBlanks = /^[|>]\+/.test(text.slice(value?.range?.[0] ?? 0, end))
  return [lineAt(text, start), lineAt(text, keepsBlanks ? end - 1 : text.slice(0, end).trimEnd().length)]
}

/** The line of the dash of each item of a list, of the item itself where it stands within brackets. */
export function linesOfItems(text: string, path: Path): number[] {
  const yaml = parseDocument(text, { keepSourceTokens: true })
  const { owner } = entryAt(yaml as Document, [...path, 0])
  const token = owner.srcToken as CST.BlockSequence | CST.FlowCollection
  return owner.items.map((item, i) => {
    const dash = token.items[i].start.find(({ type }) => type === 'seq-item-ind')
    return lineAt(text, dash?.offset ?? (item as Node).range?.[0] ?? 0)
  })
}

const lineAt = (text: string, at: number): number => text.slice(0, at).split('\n').length - 1

/** What a text was before these splices. */
export function undone(after: string, before: string, result: Edited): string {
  if (!result.ok) return before
  let shift = 0
  let text = after
  for (const { start, end, text: put } of result.splices) {
    text = text.slice(0, start) + before.slice(start, end) + text.slice(start + put.length)
    shift += put.length - (end - start)
  }
  return shift === after.length - before.length ? text : 'lengths do not add up'
}

/** Of the last two texts asked about. */
function remembered<Result>(about: (text: string) => Result): (text: string) => Result {
  const known = new Map<string, Result>()
  return (text) => {
    const found = known.get(text) ?? about(text)
    known.delete(text)
    known.set(text, found)
    if (known.size > 2) known.delete([...known.keys()][0])
    return found
  }
}
