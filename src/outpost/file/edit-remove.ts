/** An entry taken out, with the comments that belong to it and with the mappings and lists that it leaves empty. */
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { type Change, dataWithout } from './edit-check.ts'
import { type Extent, endOfBlanks, extentsOf, isBlankAbove, isBlankAt } from './edit-extent.ts'
import { removedFromFlow } from './edit-flow.ts'
import { breakBefore, lineStart } from './edit-lines.ts'
import { type Collection, rangeOf, takesBlanksBelow, wayTo } from './edit-tree.ts'
import type { Splice } from './splice.ts'

/** No splices where nothing stands at the path. */
export function removed(document: OutpostDocument, path: Path, data: unknown): Change {
  const { holders } = wayTo(document, path)
  if (holders.length < path.length || path.length === 0) return { splices: [], data }
  const depth = holders.findLastIndex(({ owner }) => owner.items.length > 1)
  const { source, yaml } = document
  if (depth < 0) return { splices: emptied(source, yaml.contents as Collection), data: null }
  const { owner, index } = holders[depth]
  const splices =
    owner.flow === true ? removedFromFlow(source, owner, index) : [removedLines(source, owner, index)]
  return { splices, data: dataWithout(data, path.slice(0, depth + 1)) }
}

/** The last section of a file goes; comments about the file stay. */
function emptied(source: string, top: Collection): Splice[] {
  const [start, end] = rangeOf(top)
  if (top.flow === true) return [{ start, end, text: top.items.length > 0 ? '{}' : source.slice(start, end) }]
  const extents = extentsOf(source, top)
  return [{ start: extents[0].lead, end: extents[extents.length - 1].end, text: '' }]
}

function removedLines(source: string, owner: Collection, index: number): Splice {
  const extents = extentsOf(source, owner)
  const { lead, start, end, isCompact } = extents[index]
  if (isCompact) return { start, end: nextText(source, end), text: '' }
  if (index > 0 && takesBlanksBelow(source, { owner, index: index - 1 }))
    return { start: lead, end: endOfBlanks(source, end), text: '' }
  return { ...withBlanks(source, lead, end, extents[index - 1] ?? null), text: '' }
}

/** The first text behind the lines of an entry moves up to the dash before it. */
function nextText(source: string, at: number): number {
  const line = endOfBlanks(source, at)
  return line + source.slice(line).search(/[^ \t]|$/)
}

/** Blank lines above and below would become one gap of double size: those above go. So does the break before an open end. */
function withBlanks(source: string, lead: number, end: number, before: Extent | null) {
  const floor = before?.end ?? lead
  let start = lead
  if (end === source.length || isBlankAt(source, end))
    while (start > floor && isBlankAbove(source, start)) start = lineStart(source, start - 1)
  const isOpenEnd = end === source.length && !source.endsWith('\n')
  return { start: isOpenEnd ? breakBefore(source, start) : start, end }
}
