/** Entries of mappings and lists put into an outpost file, taken out and put in order, with the comments that are theirs. */
import { isSeq } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { dataWith, edited } from './edit-check.ts'
import { inserted } from './edit-insert.ts'
import { layoutOf } from './edit-layout.ts'
import { editedInLongForm } from './edit-long-form.ts'
import { moved } from './edit-move.ts'
import { put } from './edit-put.ts'
import { removed } from './edit-remove.ts'
import { type PlainData, readBack, withoutBlanks } from './edit-render.ts'
import { type Collection, isNothing, wayTo } from './edit-tree.ts'
import { type Edited, NotEditable } from './splice.ts'

/**
 * Without the entry at `path`, of a mapping or a list: its lines go, with the comment behind it and the comment lines
 * directly above it in its column. The last of a mapping or list takes that with it. What is not there is no error.
 */
export const withoutEntry = (document: OutpostDocument, path: Path): Edited =>
  edited(document, path, (data) => removed(document, path, data))

/**
 * `value` as `key` of the mapping at `path`, which is made where it is missing; what stands under that key gives way.
 * Written as its neighbours are, where the format has it. An empty text takes the entry out.
 */
export function withEntry(document: OutpostDocument, path: Path, key: string, value: PlainData): Edited {
  const at = [...path, key]
  if (value === '') return withoutEntry(document, at)
  return editedInLongForm(document, at, (open, data) => {
    if (isSeq(wayTo(open, path).node)) throw new NotEditable('a list stands there, not a mapping')
    return put(open, at, withoutBlanks(value), data)
  })
}

/** `value` as entry `index` of the list at `path`, ahead of the one that is there now; the list is made where it is missing. */
export function withItem(document: OutpostDocument, path: Path, index: number, value: PlainData): Edited {
  return editedInLongForm(document, path, (open, data) => {
    const { holders, node } = wayTo(open, path)
    const filled = withoutBlanks(value)
    const list = holders.length === path.length && isSeq(node) ? node : null
    if (holders.length === path.length && list === null && !isNothing(node))
      throw new NotEditable('something else than a list stands there')
    checkIndex(index, list?.items.length ?? 0)
    if (list === null || list.items.length === 0) return put(open, path, [filled], data)
    const values = path.reduce<unknown>((each, part) => Reflect.get(each as object, part), data) as unknown[]
    const at = [...path, index]
    const raw = dataWith(data, path, values.toSpliced(index, 0, filled))
    const writing = { layout: layoutOf(open), data: raw, isText: false, isHemmedIn: false }
    const splices = inserted(open, list, index, { key: null, value: filled, path: at }, writing)
    return { splices, data: dataWith(raw, at, readBack(filled, at, writing)) }
  })
}

/** Entry `from` of the list at `path` as entry `to`, with its comments. */
export function withMovedItem(document: OutpostDocument, path: Path, from: number, to: number): Edited {
  return edited(document, path, (data) => {
    const { holders, node } = wayTo(document, path)
    if (holders.length < path.length || !isSeq(node)) throw new NotEditable('no list stands there')
    const list: Collection = node
    for (const index of [from, to]) checkIndex(index, list.items.length - 1)
    return moved(document, path, list, from, to, data)
  })
}

function checkIndex(index: number, last: number): void {
  if (!Number.isInteger(index) || index < 0 || index > last)
    throw new NotEditable(`the list has no place ${index}: its places go from 0 to ${last}`)
}
