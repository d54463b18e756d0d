/**
 * The lines of the entries of a block mapping or list, with the comments that belong to each: the one behind it, those
 * below it that are indented further than it is, and those directly above it that are indented as it is. What stands at
 * the very top of a file is about the file, and belongs to no entry.
 */
import { isMap } from 'yaml'
import { breakBefore, columnOf, commentIndent, isBlank, lineEnd, lineStart, nextLine } from './edit-lines.ts'
import { type Collection, contentEnd, rangeOf } from './edit-tree.ts'
import { NotEditable } from './splice.ts'

export interface Extent {
  /** Where the line of its first comment above begins, or its own line; `start` where it begins amid a line. */
  readonly lead: number
  /** Of its key or dash. */
  readonly start: number
  /** Behind the break of its last line. */
  readonly end: number
  /** It begins amid a line, behind the dash of a list. */
  readonly isCompact: boolean
}

export function extentsOf(source: string, owner: Collection): Extent[] {
  const extents: Extent[] = []
  const [top] = rangeOf(owner)
  let done = lineStart(source, top)
  for (const [index] of owner.items.entries()) {
    const start = isMap(owner) ? keyStart(source, owner, index) : dashAt(source, top, index, done)
    const isCompact = !isBlank(source.slice(lineStart(source, start), start))
    const column = columnOf(source, start)
    const lead = isCompact ? start : leadOf(source, start, index === 0 ? 0 : done)
    const end = tailOf(source, contentEnd(source, { owner, index }), column)
    extents.push({ lead, start, end, isCompact })
    done = end
  }
  return extents
}

/** The column of every key or dash of a collection. */
export const columnOfEntries = (source: string, [first]: readonly Extent[]): number =>
  columnOf(source, first.start)

/** All but the first begin their line, whatever stands before the key: an anchor, a question mark. */
function keyStart(source: string, owner: Collection, index: number): number {
  const key = (owner.items[index] as { key?: unknown }).key
  const [at] = rangeOf(key as Parameters<typeof rangeOf>[0])
  const line = lineStart(source, at)
  const before = source.slice(line, at)
  return index === 0 && /^ *-[ \t]/.test(before)
    ? rangeOf(owner)[0]
    : line + before.length - before.trimStart().length
}

/** The dashes of a list stand in one column, that of the first. */
function dashAt(source: string, top: number, index: number, from: number): number {
  if (index === 0) return top
  const column = columnOf(source, top)
  for (let line = from; line < source.length; line = nextLine(source, line)) {
    const at = line + column
    if (source[at] === '-' && isBlank(source.slice(line, at)) && isBlank(source[at + 1] ?? '')) return at
  }
  throw new NotEditable('its dash cannot be found')
}

/** Comment lines directly above, in the same column; none where they are the head of the file. */
function leadOf(source: string, start: number, floor: number): number {
  const own = lineStart(source, start)
  const fileStart = lineStart(source, 0)
  let lead = own
  while (lead > Math.max(floor, fileStart)) {
    const above = lineStart(source, lead - 1)
    if (commentIndent(source.slice(above, lead)) !== start - own) break
    lead = above
  }
  return lead === fileStart ? own : lead
}

/** With the rest of the last line, and with comments below that are indented further than the entry. */
function tailOf(source: string, content: number, column: number): number {
  let end = nextLine(source, content)
  for (let line = end; line < source.length; ) {
    const next = nextLine(source, line)
    const text = source.slice(line, next)
    const indent = commentIndent(text)
    if (indent === null ? !isBlank(text) : indent <= column) break
    if (indent !== null) end = next
    line = next
  }
  return end
}

/** An entry with its comments, ahead of its last line break, from the column of its key or dash on. */
export function chunkOf(
  source: string,
  { lead, start, end, isCompact }: Extent,
): readonly [from: number, to: number] {
  const column = isCompact ? 0 : columnOf(source, start)
  return [lead + column, breakBefore(source, end, start)]
}

/** Most of the entries are set apart by blank lines; null where there are fewer than two. */
export function areSetApart(source: string, extents: readonly Extent[]): boolean | null {
  if (extents.length < 2) return null
  const apart = extents.filter(({ lead }, i) => i > 0 && isBlankAbove(source, lead))
  return apart.length * 2 > extents.length - 1
}

export const isBlankAbove = (source: string, line: number): boolean =>
  line > lineStart(source, 0) && isBlank(source.slice(lineStart(source, line - 1), line))

export const isBlankAt = (source: string, line: number): boolean =>
  isBlank(source.slice(line, lineEnd(source, line)))

/** The first line at `line` or below that is not blank. */
export function endOfBlanks(source: string, line: number): number {
  let at = line
  while (at < source.length && isBlankAt(source, at)) at = nextLine(source, at)
  return at
}
