/** Entries between { } or [ ]: their places, and putting one in or taking one out with its comma. */
import {
  breakBefore,
  columnOf,
  commentIndent,
  isBlank,
  lineEnd,
  lineStart,
  newlineOf,
  nextLine,
  skipBlanks,
} from './edit-lines.ts'
import { type Collection, contentEnd, rangeOf } from './edit-tree.ts'
import type { Splice } from './splice.ts'

export interface Span {
  readonly start: number
  readonly end: number
  /** Of the comma behind it, null where it has none. */
  readonly comma: number | null
}

export function spansOf(source: string, owner: Collection): Span[] {
  let at = rangeOf(owner)[0] + 1
  return owner.items.map((_, index) => {
    const start = skipBlanks(source, at)
    const end = contentEnd(source, { owner, index })
    const next = skipBlanks(source, end)
    const comma = source[next] === ',' ? next : null
    at = comma === null ? next : next + 1
    return { start, end, comma }
  })
}

/** Whether an entry has its lines to itself, but for its comma and a comment behind it. */
export function standsAlone(source: string, { start, end, comma }: Span): boolean {
  const behind = source.slice(comma === null ? end : comma + 1, lineEnd(source, end))
  return (
    isBlank(source.slice(lineStart(source, start), start)) &&
    (comma === null || comma < lineEnd(source, end)) &&
    /^[ \t]*(#.*)?$/.test(behind)
  )
}

/** Where the comments directly above an entry that stands alone begin, or its own line. */
export function flowLead(source: string, { start }: Span, floor: number): number {
  let lead = lineStart(source, start)
  while (lead > nextLine(source, floor)) {
    const above = lineStart(source, lead - 1)
    if (commentIndent(source.slice(above, lead)) !== columnOf(source, start)) break
    lead = above
  }
  return lead
}

export function insertedInFlow(source: string, owner: Collection, index: number, text: string): Splice[] {
  const spans = spansOf(source, owner)
  const [start, end] = rangeOf(owner)
  if (spans.length === 0) {
    const inside = source.slice(start + 1, end - 1)
    const padded = source[start] === '{' ? ` ${text} ` : text
    return [{ start: start + 1, end: isBlank(inside) ? end - 1 : start + 1, text: padded }]
  }
  const last = spans[spans.length - 1]
  if (spans.every((span) => standsAlone(source, span))) {
    const newline = newlineOf(source)
    const pad = source.slice(lineStart(source, last.start), last.start)
    if (index < spans.length) {
      const at = flowLead(source, spans[index], index === 0 ? start : spans[index - 1].end)
      return [{ start: at, end: at, text: `${pad}${text},${newline}` }]
    }
    const at = nextLine(source, last.end)
    const line = { start: at, end: at, text: `${pad}${text}${last.comma === null ? '' : ','}${newline}` }
    return last.comma === null ? [{ start: last.end, end: last.end, text: ',' }, line] : [line]
  }
  const at = index === 0 ? spans[0].start : spans[index - 1].end
  return [{ start: at, end: at, text: index === 0 ? `${text}, ` : `, ${text}` }]
}

/** Of two or more entries the one at `index`; comments that others may claim stay. */
export function removedFromFlow(source: string, owner: Collection, index: number): Splice[] {
  const spans = spansOf(source, owner)
  const span = spans[index]
  const before = spans[index - 1] ?? null
  const isLast = index === spans.length - 1
  const without = (start: number, end: number): Splice => ({ start, end, text: '' })
  const commaBefore =
    before === null || before.comma === null ? [] : [without(before.comma, before.comma + 1)]
  if (standsAlone(source, span)) {
    const lead = flowLead(source, span, before === null ? rangeOf(owner)[0] : before.end)
    const lines = without(lead, nextLine(source, span.end))
    return isLast && span.comma === null ? [...commaBefore, lines] : [lines]
  }
  if (isLast && before !== null) {
    if (!source.slice(before.end, span.start).includes('#')) return [without(before.end, span.end)]
    return [
      ...(span.comma === null ? commaBefore : [without(span.comma, span.comma + 1)]),
      without(span.start, span.end),
    ]
  }
  const comma = span.comma ?? span.end
  if (!isBlank(source.slice(span.end, comma)))
    return [without(span.start, span.end), without(comma, comma + 1)]
  let end = comma + 1
  while (source[end] === ' ' || source[end] === '\t') end++
  const atLineEnd = end === breakBefore(source, nextLine(source, end), end)
  let start = span.start
  while (atLineEnd && /[ \t]/.test(source[start - 1]) && start - 1 > (before?.end ?? 0)) start--
  return [without(start, end)]
}
