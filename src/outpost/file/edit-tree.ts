/** The way from the top of a file to a value in it, node by node, and where each node ends in the text. */
import {
  isAlias,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { skipBlanks } from './edit-lines.ts'
import { NotEditable } from './splice.ts'

export type Collection = YAMLMap | YAMLSeq

/** Entry `index` of a mapping or list, which holds a value. */
export interface Holder {
  readonly owner: Collection
  readonly index: number
}

/** What of a path is in the file: the entries that lead there, and the value of the last of them. */
export interface Way {
  readonly holders: readonly Holder[]
  readonly node: Node | null
}

/** As far as the path goes; through aliases only where asked to. */
export function wayTo({ yaml }: OutpostDocument, path: Path, throughAliases = false): Way {
  const holders: Holder[] = []
  let node = yaml.contents as Node | null
  for (const part of path) {
    if (isAlias(node)) {
      if (!throughAliases) throw new NotEditable('it is shared with another place through an alias (*)')
      node = node.resolve(yaml) ?? null
    }
    const index = isMap(node) ? keyIndex(node, String(part)) : isSeq(node) ? itemIndex(node, part) : -1
    if (index < 0) break
    const owner = node as Collection
    holders.push({ owner, index })
    node = valueIn({ owner, index })
  }
  return { holders, node }
}

export function nodeAt(document: OutpostDocument, path: Path): Node | null {
  const { holders, node } = wayTo(document, path)
  if (isAlias(node)) throw new NotEditable('it is shared with another place through an alias (*)')
  return holders.length === path.length ? node : null
}

function keyIndex(map: YAMLMap, key: string): number {
  const index = map.items.findIndex((item) => keyOf(item) === key)
  if (map.items.slice(index + 1).some((item) => keyOf(item) === key))
    throw new NotEditable(`"${key}" stands there twice`)
  return index
}

function itemIndex(list: YAMLSeq, part: string | number): number {
  const index = typeof part === 'number' || /^\d+$/.test(part) ? Number(part) : -1
  return index < list.items.length ? index : -1
}

export function pairOf(map: YAMLMap, key: string): Pair | null {
  return map.items.find((item) => keyOf(item) === key) ?? null
}

/** As `toJS` names it; null for a key that is no plain text. */
export function keyOf(item: unknown): string | null {
  if (!isPair(item) || !isScalar(item.key)) return null
  return item.key.value === null ? '' : String(item.key.value)
}

export function valueIn({ owner, index }: Holder): Node | null {
  const item: unknown = owner.items[index]
  return ((isPair(item) ? item.value : item) ?? null) as Node | null
}

/** Nothing is written there, not even `null`. */
export const isAbsent = (node: Node | null): boolean =>
  node === null || (isScalar(node) && (!node.range || node.range[0] === node.range[1]))

/** Nothing, or `null` in words. */
export const isNothing = (node: Node | null): boolean =>
  isAbsent(node) || (isScalar(node) && node.value === null)

/** A mapping or list on lines of its own. */
export const isBlockCollection = (node: unknown): node is Collection =>
  (isMap(node) || isSeq(node)) && node.flow !== true

/** Behind the colon of a pair, or behind its key where it has none; behind the dash of an item, or where an item begins. */
export function headEnd(source: string, { owner, index }: Holder): number {
  const item = owner.items[index]
  if (isPair(item)) {
    const keyEnd = rangeOf(item.key as Node | null)[1]
    const colon = skipBlanks(source, keyEnd)
    return source[colon] === ':' ? colon + 1 : keyEnd
  }
  return rangeOf(item as Node | null)[0]
}

/** Behind the last character of an entry that is neither blank nor comment. */
export function contentEnd(source: string, holder: Holder): number {
  const value = valueIn(holder)
  if (!isAbsent(value)) return nodeEnd(source, value as Node)
  const end = headEnd(source, holder)
  const hasProperties = value !== null && (value.anchor !== undefined || value.tag !== undefined)
  return hasProperties ? Math.max(end, rangeOf(value)[0]) : end
}

function nodeEnd(source: string, node: Node): number {
  if (isBlockCollection(node)) return contentEnd(source, { owner: node, index: node.items.length - 1 })
  const [start, end] = rangeOf(node)
  if (!isBlockScalar(node)) return end
  const text = source.slice(start, end)
  // The line breaks at its end belong to a text that keeps them (+), all but the last of which every line has.
  return start + (KEEPS.test(text) ? text.replace(/\r?\n$/, '') : text.trimEnd()).length
}

const KEEPS = /^[|>]\d?\+/

/** Blank lines below an entry would be part of its text. */
export function takesBlanksBelow(source: string, holder: Holder): boolean {
  const value = valueIn(holder)
  if (isBlockCollection(value))
    return takesBlanksBelow(source, { owner: value, index: value.items.length - 1 })
  return isBlockScalar(value) && KEEPS.test(source.slice(...rangeOf(value)))
}

export const isBlockScalar = (node: Node | null): boolean =>
  isScalar(node) && node.type?.startsWith('BLOCK') === true

export function rangeOf(node: Node | null): readonly [start: number, end: number] {
  if (!node?.range) throw new NotEditable('it has no place in the text')
  return [node.range[0], node.range[1]]
}
