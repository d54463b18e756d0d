/** A further entry in a mapping or list that has entries, or that stands between brackets. */
import { isMap } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { areSetApart, columnOfEntries, extentsOf, isBlankAt } from './edit-extent.ts'
import { insertedInFlow } from './edit-flow.ts'
import { listHabit, mannerAt } from './edit-layout.ts'
import { insertedLines, newlineOf } from './edit-lines.ts'
import { entryLines, FLOW, flowEntry, inlineText, type PlainData, type Writing } from './edit-render.ts'
import { keyed } from './edit-scalar.ts'
import { type Collection, takesBlanksBelow } from './edit-tree.ts'
import type { Splice } from './splice.ts'

export interface NewEntry {
  /** Null in a list. */
  readonly key: string | null
  readonly value: PlainData
  /** Where it will stand. */
  readonly path: Path
}

/** The entry at `index`, ahead of the one that is there now. */
export function inserted(
  { source, yaml }: OutpostDocument,
  owner: Collection,
  index: number,
  { key, value, path }: NewEntry,
  writing: Writing,
): Splice[] {
  const habit = listHabit(source, owner)
  if (owner.flow === true) {
    const manner = { ...FLOW, habit }
    const text =
      key === null ? inlineText(value, path, manner, writing) : flowEntry(key, value, path, manner, writing)
    return insertedInFlow(source, owner, index, text)
  }
  const extents = extentsOf(source, owner)
  const column = columnOfEntries(source, extents)
  const head = key === null ? '-' : keyed(key, 'block')
  const manner = { ...mannerAt(owner, index), habit }
  const lines = entryLines(head, value, path, column, manner, writing)
  const isApart =
    lines.length > 1 && (areSetApart(source, extents) ?? (owner === yaml.contents && isMap(owner)))
  if (index === 0) return [insertedFirst(source, extents[0], column, isApart ? [...lines, ''] : lines)]
  const at = extents[index - 1].end
  const needsGap = isApart && at < source.length && !isBlankAt(source, at)
  const isOpen = takesBlanksBelow(source, { owner, index: index - 1 })
  const set = [...(isApart && !isOpen ? [''] : []), ...lines, ...(needsGap ? [''] : [])]
  return [{ start: at, end: at, text: insertedLines(source, at, set) }]
}

function insertedFirst(
  source: string,
  first: ReturnType<typeof extentsOf>[number],
  column: number,
  lines: readonly string[],
): Splice {
  const at = first.lead
  if (!first.isCompact) return { start: at, end: at, text: insertedLines(source, at, lines) }
  const text = [...lines, ' '.repeat(column)].join(newlineOf(source)).slice(column)
  return { start: at, end: at, text }
}
