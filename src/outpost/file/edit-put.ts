/** A value put at a path of a file: in the place of what stands there, or as a new entry with all that leads to it. */
import { isCollection, isMap, isScalar, isSeq, type Node } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { type Change, dataWith } from './edit-check.ts'
import { inserted } from './edit-insert.ts'
import { habitAt, layoutOf } from './edit-layout.ts'
import { insertedLines } from './edit-lines.ts'
import {
  BLOCK,
  entryLines,
  FLOW,
  type Manner,
  mannerLike,
  type PlainData,
  readBack,
  rendered,
  type Writing,
} from './edit-render.ts'
import { replaced } from './edit-replace.ts'
import { keyed, readsAs } from './edit-scalar.ts'
import { placeOfKey } from './edit-schema.ts'
import { type Collection, type Holder, isAbsent, isNothing, keyOf, wayTo } from './edit-tree.ts'
import { NotEditable, type Splice } from './splice.ts'

/** `manner` is how to write it where something stands there already; as that is written, if left out. */
export function put(
  document: OutpostDocument,
  path: Path,
  value: PlainData,
  data: unknown,
  manner: Manner | null = null,
): Change {
  const { holders, node } = wayTo(document, path)
  const at = path.slice(0, holders.length)
  const rest = path.slice(holders.length)
  const isText = rest.length === 0 && isQuotedNumber(node)
  const raw = dataWith(data, path, value)
  const writing: Writing = { layout: layoutOf(document), data: raw, isText, isHemmedIn: false }
  const after = dataWith(data, path, readBack(value, path, writing))
  const holder = holders.at(-1) ?? null
  return { splices: splices(), data: after }

  function splices(): Splice[] {
    if (rest.length > 0 && isOpen(node, holder))
      return insertedBelow(document, node as Collection, at, rest, value, writing)
    const nested = nest(rest, value)
    if (rest.length > 0 && !isNothing(node) && !isEmptyLike(node, nested))
      throw new NotEditable(
        `${isCollection(node) ? 'something else' : 'a single value'} stands where its section belongs`,
      )
    if (holder === null) return atTop(document, node, nested, writing)
    const { source } = document
    const isFlow = holder.owner.flow === true
    const usual = isFlow ? FLOW : (manner ?? (rest.length === 0 ? mannerLike([node]) : BLOCK))
    const own = { ...usual, habit: habitAt(source, node) }
    return replaced(source, holder, (head, column, isHemmedIn) =>
      rendered(nested, at, head, column, own, { ...writing, isHemmedIn }),
    )
  }
}

/** A text that quotes keep from being a number, true or false. */
const isQuotedNumber = (node: Node | null): boolean =>
  isScalar(node) && typeof node.value === 'string' && typeof readsAs(node.value, false) !== 'string'

/** A further entry can be written beside others, or between brackets where everything around is. */
function isOpen(node: Node | null, holder: Holder | null): boolean {
  if (!isMap(node) && !isSeq(node)) return false
  return node.items.length > 0 || holder === null || holder.owner.flow === true
}

/** `{}` or `[]` for what is to be filled in. */
const isEmptyLike = (node: Node | null, nested: PlainData): boolean =>
  Array.isArray(nested) ? isSeq(node) && node.items.length === 0 : isMap(node) && node.items.length === 0

function insertedBelow(
  document: OutpostDocument,
  owner: Collection,
  at: Path,
  [part, ...rest]: Path,
  value: PlainData,
  writing: Writing,
): Splice[] {
  const path = [...at, part]
  const nested = nest(rest, value)
  if (!isMap(owner)) {
    if (part !== owner.items.length) throw new NotEditable(`the list has no entry ${part}`)
    return inserted(document, owner, owner.items.length, { key: null, value: nested, path }, writing)
  }
  const index = placeOfKey(writing.data, at, owner.items.map(keyOf), String(part))
  return inserted(document, owner, index, { key: String(part), value: nested, path }, writing)
}

/** What leads to the value where nothing does: mappings, and lists of which it is the first entry. */
function nest(rest: Path, value: PlainData): PlainData {
  return rest.reduceRight<PlainData>((inner, part) => {
    if (typeof part === 'string') return { [part]: inner }
    if (part !== 0) throw new NotEditable(`the list has no entry ${part - 1} yet`)
    return [inner]
  }, value)
}

/** The first entry of a file that has none. */
function atTop(
  { source }: OutpostDocument,
  node: Node | null,
  nested: PlainData,
  writing: Writing,
): Splice[] {
  if (!isAbsent(node) || typeof nested !== 'object' || nested === null || Array.isArray(nested))
    throw new NotEditable('the file is no mapping of sections')
  const lines = Object.entries(nested).flatMap(([key, each]) =>
    entryLines(keyed(key, 'block'), each, [key], 0, BLOCK, writing),
  )
  return [{ start: source.length, end: source.length, text: insertedLines(source, source.length, lines) }]
}
