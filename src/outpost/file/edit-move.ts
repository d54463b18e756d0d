/** The entries of a list in another order, each with its own comments; blank lines and commas stay where they are. */
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { type Change, dataWith } from './edit-check.ts'
import { chunkOf, endOfBlanks, extentsOf } from './edit-extent.ts'
import { flowLead, spansOf, standsAlone } from './edit-flow.ts'
import { lineEnd } from './edit-lines.ts'
import { type Collection, rangeOf, takesBlanksBelow } from './edit-tree.ts'
import { NotEditable, type Splice } from './splice.ts'

type Slot = readonly [start: number, end: number]

/** Entry `from` will be entry `to`. */
export function moved(
  { source }: OutpostDocument,
  path: Path,
  list: Collection,
  from: number,
  to: number,
  data: unknown,
): Change {
  const order = list.items.map((_, i) => i)
  order.splice(to, 0, ...order.splice(from, 1))
  const values = path.reduce<unknown>(
    (each, part) => Reflect.get(each as object, part),
    data,
  ) as readonly unknown[]
  const splices = slotsOf(source, list, Math.min(from, to), Math.max(from, to)).flatMap((slots) =>
    slots.map(([start, end], i): Splice => {
      const [first, last] = slots[order[i]]
      return { start, end, text: source.slice(first, last) }
    }),
  )
  return {
    splices,
    data: dataWith(
      data,
      path,
      order.map((i) => values[i]),
    ),
  }
}

/** For each part of an entry (itself, and the comment behind its comma) where it stands in every entry. */
function slotsOf(source: string, list: Collection, first: number, last: number): Slot[][] {
  if (list.flow !== true) return [blockSlots(source, list, first, last)]
  const spans = spansOf(source, list)
  const entries = spans.map(({ start, end }): Slot => [start, end])
  const within = spans.slice(first, last + 1)
  if (within.every((span) => standsAlone(source, span)))
    return [
      spans.map((span, i) => [
        flowLead(source, span, i === 0 ? rangeOf(list)[0] : spans[i - 1].end),
        span.end,
      ]),
      spans.map(({ end, comma }) => [comma === null ? end : comma + 1, lineEnd(source, end)]),
    ]
  if (within.some(({ start }, i) => i > 0 && source.slice(within[i - 1].end, start).includes('#')))
    throw new NotEditable('comments stand between the entries of this list within [ ]')
  return [entries]
}

/** Blank lines go along where one of the entries would take those that follow for its own. */
function blockSlots(source: string, list: Collection, first: number, last: number): Slot[] {
  const takesBlanks = list.items.some(
    (_, index) => index >= first && index <= last && takesBlanksBelow(source, { owner: list, index }),
  )
  return extentsOf(source, list).map((extent) =>
    chunkOf(source, takesBlanks ? { ...extent, end: endOfBlanks(source, extent.end) } : extent),
  )
}
