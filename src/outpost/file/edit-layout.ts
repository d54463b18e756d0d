/** How a file is laid out: how far it indents, and how the neighbours of a new value are written. */
import { isMap, isScalar, isSeq, type Node, visit } from 'yaml'
import type { OutpostDocument } from './document.ts'
import { columnOf } from './edit-lines.ts'
import { type Layout, type Manner, mannerLike } from './edit-render.ts'
import { habitOf, type Quote } from './edit-scalar.ts'
import { type Collection, isBlockCollection, rangeOf, valueIn } from './edit-tree.ts'

const USUAL_STEP = 2

/** As the first mapping and the first list of the file that stand below a key do it. */
export function layoutOf({ yaml, source }: OutpostDocument): Layout {
  let step: number | null = null
  let listStep: number | null = null
  visit(yaml, {
    Pair(_, { key, value }) {
      if (!isBlockCollection(value) || !isScalar(key) || !key.range) return
      const deeper = columnOf(source, rangeOf(value)[0]) - columnOf(source, key.range[0])
      if (isMap(value)) step ??= deeper
      else listStep ??= deeper
      if (step !== null && listStep !== null) return visit.BREAK
    },
  })
  const sound = step !== null && step > 0 ? step : USUAL_STEP
  return { step: sound, listStep: listStep !== null && listStep >= 0 ? listStep : sound }
}

/** Like the neighbours that are mappings or lists: the nearest before it first, then those behind. */
export function mannerAt(owner: Collection, index: number): Manner {
  const values = owner.items.map((_, i) => valueIn({ owner, index: i }))
  return mannerLike([...values.slice(0, index).reverse(), ...values.slice(index)])
}

/** The quote that all single values of a list are in without need. */
export function listHabit(source: string, owner: Collection): Quote | null {
  const [first, ...others] = owner.items.map((_, index) => habitAt(source, valueIn({ owner, index })))
  return isSeq(owner) && others.every((habit) => habit === first) ? (first ?? null) : null
}

export function habitAt(source: string, node: Node | null): Quote | null {
  if (!isScalar(node) || !node.range) return null
  return habitOf(source.slice(node.range[0], node.range[1]), node.value)
}
