/** Edits of files of any shape and layout; the YAML library's own document is the outside oracle. */
import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { withEntry, withItem, withMovedItem, withoutEntry } from './edit-entry.ts'
import {
  commentsIn,
  dataAfter,
  dataIn,
  deleteAt,
  insertAt,
  linesOfItems,
  linesOfValue,
  moveAt,
  placesIn,
  setAt,
  textOf,
  undone,
} from './edit-oracle.contract.ts'
import type { PlainData } from './edit-render.ts'
import { withValue } from './edit-value.ts'
import { type SyntheticFile, syntheticFile } from './synthetic-file.contract.ts'

const place = fc.nat(1000)
const some = <Item>(items: readonly Item[], at: number): Item => items[at % items.length]
const VALUES: PlainData[] = [
  '1 mA',
  'a, b',
  { x: '1', y: ['p: q', 'r'] },
  [{ name: 'n', for: '2 s' }],
  'two\nlines',
]
const TEXTS = [
  'plain',
  '5 # c',
  '&a 5',
  ' 5',
  '5 s [3 s, 9 s]',
  'x: y # z',
  "it's",
  '"',
  ' led by a blank',
  '- a',
  '&a',
  '~',
  'a\n\nb',
  '\ttab\n',
  '{',
]

function forAnyFile(seed: number, holds: (file: SyntheticFile, one: number, two: number) => void): void {
  fc.assert(fc.property(syntheticFile, place, place, holds), { seed, numRuns: 150 })
}

it('takes any text for any value', () =>
  forAnyFile(40, ({ text }, one, two) => {
    const { scalars } = placesIn(text)
    fc.pre(scalars.length > 0)
    const path = some(scalars, one)
    const put = some(TEXTS, two)
    const result = withValue(parseOutpostDocument(text), path, put)
    const after = textOf(result)
    expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => setAt(yaml, path, put)))
    expect(commentsIn(after)).toEqual(commentsIn(text))
    expect(undone(after, text, result)).toBe(text)
    const [first, last] = linesOfValue(text, path)
    const [lines, changed] = [text.split('\n'), after.split('\n')]
    expect(changed.slice(0, first)).toEqual(lines.slice(0, first))
    expect(changed.slice(changed.length - (lines.length - last - 1))).toEqual(lines.slice(last + 1))
  }))

it('loses any entry, with the comments about it and no others', () =>
  forAnyFile(41, ({ text, comments }, one) => {
    const { scalars, maps, lists } = placesIn(text)
    const path = some([...scalars, ...maps.slice(1), ...lists], one)
    const result = withoutEntry(parseOutpostDocument(text), path)
    const after = textOf(result)
    expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => deleteAt(yaml, path)))
    expect(undone(after, text, result)).toBe(text)
    const gone = goneWith(dataIn(text), path)
    const left = comments.filter(({ about }) => about.length === 0 || !isWithin(about, gone))
    expect(commentsIn(after)).toEqual(left.map((comment) => comment.text).sort())
  }))

it('takes a further entry in any mapping, touching no line there is', () =>
  forAnyFile(42, ({ text }, one, two) => {
    const path = some(placesIn(text).maps, one)
    const value = some(VALUES, two)
    const key = some(['new', 'a: b', 'chance', '100'], two)
    const result = withEntry(parseOutpostDocument(text), path, key, value)
    const after = textOf(result)
    expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => setAt(yaml, [...path, key], read(value))))
    expect(commentsIn(after)).toEqual(commentsIn(text))
    expect(result.ok && result.splices.every(({ start, end }) => start === end)).toBe(true)
    const back = textOf(withoutEntry(parseOutpostDocument(after), [...path, key]))
    expect(dataIn(back)).toEqual(dataIn(text))
    expect(commentsIn(back)).toEqual(commentsIn(text))
  }))

it('puts another value in the place of any', () =>
  forAnyFile(43, ({ text, comments }, one, two) => {
    const { scalars, maps, lists } = placesIn(text)
    const path = some(
      [...scalars, ...maps.slice(1), ...lists].filter((each) => typeof each.at(-1) === 'string'),
      one,
    )
    const value = some(VALUES, two)
    const after = textOf(withEntry(parseOutpostDocument(text), path.slice(0, -1), String(path.at(-1)), value))
    expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => setAt(yaml, path, read(value))))
    const left = comments.filter(
      ({ about }) =>
        about.length <= path.length || !path.every((part, i) => String(part) === String(about[i])),
    )
    for (const comment of left.filter(({ text }) => !/^# \d+ below/.test(text)))
      expect(commentsIn(after)).toContain(comment.text)
  }))

it('takes a further entry at any place of any list', () =>
  forAnyFile(44, ({ text }, one, two) => {
    const { lists } = placesIn(text)
    fc.pre(lists.length > 0)
    const path = some(lists, one)
    const index = two % (lengthAt(text, path) + 1)
    const value = some(VALUES, two)
    const result = withItem(parseOutpostDocument(text), path, index, value)
    const after = textOf(result)
    expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => insertAt(yaml, path, index, read(value))))
    expect(commentsIn(after)).toEqual(commentsIn(text))
    expect(result.ok && result.splices.every(({ start, end }) => start === end)).toBe(true)
    const back = textOf(withoutEntry(parseOutpostDocument(after), [...path, index]))
    expect(dataIn(back)).toEqual(dataIn(text))
    expect(commentsIn(back)).toEqual(commentsIn(text))
  }))

it('moves any entry of any list, with the comments about it, and back', () =>
  forAnyFile(45, ({ text, comments }, one, two) => {
    const lists = placesIn(text).lists.filter((path) => lengthAt(text, path) > 1)
    fc.pre(lists.length > 0)
    const path = some(lists, one)
    const length = lengthAt(text, path)
    const [from, to] = [one % length, two % length]
    const after = textOf(withMovedItem(parseOutpostDocument(text), path, from, to))
    expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => moveAt(yaml, path, from, to)))
    expect(commentsIn(after)).toEqual(commentsIn(text))
    const order = Array.from({ length }, (_, i) => i)
    order.splice(to, 0, ...order.splice(from, 1))
    const [lines, items] = [after.split('\n'), linesOfItems(after, path)]
    for (const { text: comment, about } of comments) {
      if (about.length <= path.length || !isWithin(about, path)) continue
      const place = order.indexOf(Number(about[path.length]))
      const line = lines.findIndex((each) => each.includes(comment))
      const isAbove = line < items[place]
      if (isAbove)
        expect(lines.slice(line, items[place]).every((each) => /^[\uFEFF -]*#/.test(each))).toBe(true)
      else expect(line).toBeLessThan(items[place + 1] ?? lines.length)
      expect(isAbove).toBe(/^# \d+ above/.test(comment) && about.length === path.length + 1)
    }
    expect(dataIn(textOf(withMovedItem(parseOutpostDocument(after), path, to, from)))).toEqual(dataIn(text))
  }))

const isWithin = (about: Path, path: Path): boolean =>
  path.every((part, i) => String(part) === String(about[i]))

const lengthAt = (text: string, path: Path): number => (dataAt(dataIn(text), path) as unknown[]).length

const dataAt = (data: unknown, path: Path): unknown =>
  path.reduce<unknown>((each, part) => (each as Record<string | number, unknown>)[part], data)

/** The entry that goes with the one at the path, which may be the last of its mapping or list. */
function goneWith(data: unknown, path: Path): Path {
  const depth = path.findLastIndex((_, i) => Object.keys(dataAt(data, path.slice(0, i)) as object).length > 1)
  return path.slice(0, depth + 1)
}

/** A text that is a number in the file is one in its data. */
function read(value: PlainData): unknown {
  return JSON.parse(JSON.stringify(value), (_, each: unknown) => (each === '1' ? 1 : each))
}
