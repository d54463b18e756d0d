/** A key of a mapping under another name, its value and comments as they are. */
import { isMap, isScalar, type Node } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { type Change, dataWith, dataWithout, edited } from './edit-check.ts'
import { keyed } from './edit-scalar.ts'
import { keyOf, rangeOf, wayTo } from './edit-tree.ts'
import { type Edited, NotEditable } from './splice.ts'

/**
 * The entry at `path` of a mapping is named `key` from now on: as a point of a curve whose current is typed anew. A key
 * that the mapping has already is refused, and so is an empty one.
 */
export const withKey = (document: OutpostDocument, path: Path, key: string): Edited =>
  edited(document, path, (data) => renamed(document, path, key, data))

function renamed(document: OutpostDocument, path: Path, key: string, data: unknown): Change {
  const { holders } = wayTo(document, path)
  const { owner, index } = holders.at(-1) ?? {}
  if (holders.length < path.length || index === undefined || !isMap(owner))
    throw new NotEditable('no mapping has an entry there')
  const node = owner.items[index].key as Node | null
  const before = keyOf(owner.items[index])
  if (before === key) return { splices: [], data }
  if (!isScalar(node) || before === null) throw new NotEditable('its name is no plain text')
  if (key === '') throw new NotEditable('it needs a name')
  if (owner.items.some((item) => keyOf(item) === key)) throw new NotEditable(`"${key}" is there already`)
  const [start, end] = rangeOf(node)
  const text = keyed(key, owner.flow === true ? 'flow' : 'block').slice(0, -1)
  const value = path.reduce<unknown>((each, part) => Reflect.get(each as object, part), data)
  return {
    splices: [{ start, end, text }],
    data: dataWith(dataWithout(data, path), [...path.slice(0, -1), key], value),
  }
}
