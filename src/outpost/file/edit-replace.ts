/** The value of an entry gives way to another; its key or dash, and comments beside them, stay. */
import { isMap, type Node } from 'yaml'
import { columnOfEntries, extentsOf } from './edit-extent.ts'
import { breakBefore, isBlank, lineEnd, newlineOf, skipBlanks } from './edit-lines.ts'
import type { Rendered } from './edit-render.ts'
import {
  contentEnd,
  type Holder,
  headEnd,
  isAbsent,
  isBlockCollection,
  isBlockScalar,
  rangeOf,
  valueIn,
} from './edit-tree.ts'
import { NotEditable, type Splice } from './splice.ts'

type Span = readonly [start: number, end: number]

/** What of a value stands on the line of its key or dash, and what hangs below it. */
interface Parts {
  readonly token: Span
  readonly body: Span
}

/** `render` is told what the value follows, in which column that stands, and whether comments hang below it that stay. */
export function replaced(
  source: string,
  holder: Holder,
  render: (head: 'key' | 'dash', column: number, isHemmedIn: boolean) => Rendered,
): Splice[] {
  const { owner, index } = holder
  const head = isMap(owner) ? 'key' : 'dash'
  if (owner.flow === true) return [inFlow(source, holder, render(head, 0, false).inline)]
  const extents = extentsOf(source, owner)
  const behind = head === 'key' ? headEnd(source, holder) : extents[index].start + 1
  if (head === 'key' && source[behind - 1] !== ':') throw new NotEditable('its key has no colon behind it')
  const last = breakBefore(source, extents[index].end, behind)
  const { token, body } = partsOf(source, holder, behind, last)
  const isHemmedIn = source.slice(body[1], last).includes('#')
  const { inline, below } = render(head, columnOfEntries(source, extents), isHemmedIn)
  const lines = below.map((line) => newlineOf(source) + line).join('')
  const [start, end] =
    inline === '' && isBlankLine(source.slice(behind, token[0])) ? [behind, token[1]] : token
  return [
    { start, end, text: inline !== '' && start === behind ? ` ${inline}` : inline },
    { start: body[0], end: body[1], text: lines },
  ]
}

/** `behind` is where key or dash end, `last` where the entry does, the break of its last line left out. */
function partsOf(source: string, holder: Holder, behind: number, last: number): Parts {
  const value = valueIn(holder)
  if (isAbsent(value)) return { token: [behind, behind], body: emptyAt(lineEnd(source, behind)) }
  const [start] = rangeOf(value)
  const end = contentEnd(source, holder)
  if (isBlockCollection(value)) {
    const between = source.slice(behind, start)
    if (!between.includes('\n')) return { token: [start, last], body: emptyAt(last) }
    const properties = /^([ \t]+[&!]\S*)*/.exec(between)?.[0].length ?? 0
    return { token: [behind, behind + properties], body: [lineEnd(source, behind), last] }
  }
  const own = tokenStart(source, value as Node, behind)
  if (!isBlockScalar(value)) return { token: [own, end], body: emptyAt(lineEnd(source, end)) }
  const header = /^[|>][-+\d]*/.exec(source.slice(start, end))?.[0].length ?? 0
  const below = lineEnd(source, start)
  return { token: [own, start + header], body: [below, Math.max(below, end)] }
}

/** A tag says how the old value was to be read, so it goes with it. */
const tokenStart = (source: string, value: Node, behind: number): number =>
  value.tag === undefined ? rangeOf(value)[0] : skipBlanks(source, behind)

const emptyAt = (at: number): Span => [at, at]

const isBlankLine = (text: string): boolean => isBlank(text) && !text.includes('\n')

function inFlow(source: string, holder: Holder, text: string): Splice {
  const value = valueIn(holder)
  const behind = headEnd(source, holder)
  if (!isAbsent(value))
    return { start: tokenStart(source, value as Node, behind), end: contentEnd(source, holder), text }
  return { start: behind, end: behind, text: source[behind - 1] === ':' ? ` ${text}` : `: ${text}` }
}
