/** Changes of a text as pieces that give way to others: what an edit touches, and that it touches nothing else. */
import type { Path } from './diagnostic.ts'

/** Characters start … end − 1 of the source give way to `text`. */
export interface Splice {
  readonly start: number
  readonly end: number
  readonly text: string
}

export type Edited =
  | { readonly ok: true; readonly text: string; readonly splices: readonly Splice[] }
  /** What cannot be edited, and why. */
  | { readonly ok: false; readonly path: Path; readonly why: string }

/** What an edit finds on its way that keeps it from being made; `message` is for the user. */
export class NotEditable extends Error {}

/** The text with its splices made; they are in order and do not overlap. */
export function spliced(source: string, splices: readonly Splice[]): string {
  let done = 0
  const parts = splices.flatMap(({ start, end, text }) => {
    const before = source.slice(done, start)
    done = end
    return [before, text]
  })
  return [...parts, source.slice(done)].join('')
}

/** Without those that change nothing, by place; of two at one place the one that was given first comes first. */
export function inOrder(source: string, splices: readonly Splice[]): Splice[] {
  return splices
    .filter(({ start, end, text }) => source.slice(start, end) !== text)
    .sort((a, b) => a.start - b.start || a.end - b.end)
}

/** The one splice that makes `before` into `after`, as short as can be; null where they are the same. */
export function spliceBetween(before: string, after: string): Splice | null {
  if (before === after) return null
  const shorter = Math.min(before.length, after.length)
  let start = 0
  while (start < shorter && before[start] === after[start]) start++
  if (splitsPair(before, start) || splitsPair(after, start)) start--
  let tail = 0
  while (tail < shorter - start && before.at(-1 - tail) === after.at(-1 - tail)) tail++
  if (splitsPair(before, before.length - tail) || splitsPair(after, after.length - tail)) tail--
  return { start, end: before.length - tail, text: after.slice(start, after.length - tail) }
}

/** Half of a character above U+FFFF is none: an editor would show it as a box. */
const splitsPair = (text: string, at: number): boolean =>
  /^[\uD800-\uDBFF][\uDC00-\uDFFF]$/.test(text.slice(at - 1, at + 1))
