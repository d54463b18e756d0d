/** Every value, entry and list of every example, edited in turn. The YAML library's own document is the outside oracle. */
import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { withEntry, withItem, withMovedItem, withoutEntry } from './edit-entry.ts'
import {
  commentsIn,
  dataAfter,
  dataIn,
  deleteAt,
  insertAt,
  linesOfValue,
  placesIn,
  setAt,
  textOf,
  undone,
} from './edit-oracle.contract.ts'
import type { PlainData } from './edit-render.ts'
import { withValue } from './edit-value.ts'
import { valueAt } from './field-value.ts'

const examples = readdirSync('examples')
  .filter((name) => name.endsWith('.outpost.yaml'))
  .map((name) => [name, readFileSync(`examples/${name}`, 'utf8')] as const)

const TEXTS = ['5 s [3 s, 9 s]', 'x: y # z', 'plain']
const STEP: PlainData = { name: 'blink, once', for: '30 ms [10 ms, 90 ms]', draws: '2 mA ± 10 %' }

const ENTRIES: PlainData[] = ['1 mA', { is: '1 mA', source: 'log "7", all' }, [STEP, STEP]]

describe.each(examples)('%s', (_, text) => {
  const document = parseOutpostDocument(text)
  const { scalars, maps, lists } = placesIn(text)

  it('takes another text for any value, on the lines of that value', () =>
    forAny(fc.tuple(fc.constantFrom(...scalars), fc.constantFrom(...TEXTS)), ([path, put]) => {
      const at = path.at(-1) === 'is' ? path.slice(0, -1) : path
      const result = withValue(document, at, put)
      const after = textOf(result)
      expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => setAt(yaml, path, put)))
      expect(commentsIn(after)).toEqual(commentsIn(text))
      expect(undone(after, text, result)).toBe(text)
      const [first, last] = linesOfValue(text, path)
      const without = (lines: string[]) => lines.toSpliced(first, last - first + 1)
      expect(without(after.split('\n'))).toEqual(without(text.split('\n')))
      const shown = valueAt(document, at)
      if (shown.kind !== 'text') throw new Error(`no text at ${at.join('.')}`)
      const back = withValue(parseOutpostDocument(after), at, shown.text)
      expect(dataIn(textOf(back))).toEqual(dataIn(text))
    }))

  it('loses any entry, with the comments about it, and takes it back', () =>
    forAny(fc.constantFrom(...scalars, ...maps.slice(1), ...lists), (path) => {
      const result = withoutEntry(document, path)
      const after = textOf(result)
      expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => deleteAt(yaml, path)))
      expect(undone(after, text, result)).toBe(text)
      for (const comment of lost(text, after)) expect(aboutOrIn(text, path)).toContain(comment)
      if (typeof path.at(-1) === 'number') return
      const value = dataAt(text, path) as PlainData
      const again = withEntry(parseOutpostDocument(after), path.slice(0, -1), String(path.at(-1)), value)
      if (again.ok) expect(dataIn(again.text)).toEqual(dataIn(text))
      else expect(again.why).toContain('no entry') // an entry of a list that went with its last key
    }))

  it('takes a further entry at any place of any list, and moves it about', () =>
    forAny(fc.tuple(fc.constantFrom(...lists), fc.nat(4)), ([path, place]) => {
      const index = Math.min(place, (dataAt(text, path) as unknown[]).length)
      const result = withItem(document, path, index, STEP)
      const after = textOf(result)
      expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => insertAt(yaml, path, index, STEP)))
      expect(commentsIn(after)).toEqual(commentsIn(text))
      expect(result.ok && result.splices.every(({ start, end }) => start === end)).toBe(true)
      const open = parseOutpostDocument(after)
      expect(textOf(withoutEntry(open, [...path, index]))).toBe(text)
      const moved = textOf(withMovedItem(open, path, index, 0))
      expect(dataIn(moved)).toEqual(dataAfter(text, (yaml) => insertAt(yaml, path, 0, STEP)))
      expect(commentsIn(moved)).toEqual(commentsIn(text))
      expect(textOf(withMovedItem(parseOutpostDocument(moved), path, 0, index))).toBe(after)
    }))

  it('takes a further entry in any mapping', () =>
    forAny(fc.tuple(fc.constantFrom(...maps), fc.constantFrom(...ENTRIES)), ([path, value]) => {
      const at = [...path, 'a new: one']
      const after = textOf(withEntry(document, path, 'a new: one', value))
      expect(dataIn(after)).toEqual(dataAfter(text, (yaml) => setAt(yaml, at, value)))
      expect(commentsIn(after)).toEqual(commentsIn(text))
      expect(textOf(withoutEntry(parseOutpostDocument(after), at))).toBe(text)
    }))
})

function forAny<Given>(given: fc.Arbitrary<Given>, holds: (given: Given) => void): void {
  fc.assert(fc.property(given, holds), { seed: 30, numRuns: 12 })
}

const dataAt = (text: string, path: Path): unknown =>
  path.reduce<unknown>((data, part) => (data as Record<string | number, unknown>)[part], dataIn(text))

const lost = (before: string, after: string): string[] => {
  const left = commentsIn(after)
  return commentsIn(before).filter((comment) => !left.includes(comment))
}

/** The comments on the lines of an entry and on those directly above. */
function aboutOrIn(text: string, path: Path): string {
  let [first, last] = linesOfValue(text, path)
  const lines = text.split('\n')
  while (first > 0 && /^ *#/.test(lines[first - 1])) first--
  return lines.slice(first, last + 1).join('\n')
}
