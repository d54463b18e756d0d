/**
 * Whatever stands in the file, an edit answers: it is made as asked, by the YAML library's own reading, or it is refused
 * with a sentence. Anchors, aliases, tags, long keys, tabs, unended brackets: none makes it throw, or do more.
 */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isAlias, parse, parseDocument, visit } from 'yaml'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { withEntry, withItem, withMovedItem, withoutEntry } from './edit-entry.ts'
import { withValue } from './edit-value.ts'
import { valueAt } from './field-value.ts'
import { SOLAR } from './solar-outpost.contract.ts'
import type { Edited } from './splice.ts'

const scraps = fc.oneof(
  fc.constantFrom(
    '',
    '{',
    '}',
    '[',
    ']',
    ':',
    '- ',
    '\n',
    '\n\n',
    '  ',
    '\t',
    '#',
    ' # c\n',
    '"',
    "'",
    ',',
    '\r\n',
  ),
  fc.constantFrom(
    '&a ',
    '*a',
    '*a\n',
    '<<: *a\n',
    '!!str ',
    '!foo ',
    '? ',
    '|',
    '>-\n  ',
    '|+\n',
    '---\n',
    '...\n',
    '~',
    '\uFEFF',
  ),
  fc.string({ maxLength: 4 }),
)
const pieces = SOLAR.split(/(?<=[\s{},:])|(?=[\s{},:])/)
const broken = fc
  .array(fc.tuple(fc.nat(pieces.length - 1), scraps), { minLength: 1, maxLength: 4 })
  .map((changes) => {
    const copy = [...pieces]
    for (const [at, scrap] of changes) copy[at] = scrap
    return copy.join('')
  })

const part = fc.oneof(
  fc.constantFrom(
    'wake',
    'steps',
    'rest',
    'supply',
    'cell',
    'type',
    'place',
    'standing',
    'is',
    'source',
    '__proto__',
    '',
  ),
  fc.nat(3),
)
const somewhere: fc.Arbitrary<Path> = fc.oneof(
  fc.constantFrom<Path>(
    ['rest'],
    ['wake', 'steps'],
    ['wake', 'steps', 0],
    ['wake', 'steps', 1, 'for'],
    ['wake', 'steps', 1, 'retries', 'times'],
    ['standing'],
    ['standing', 0, 'draws', 'source'],
    ['supply', 'cell', 'series'],
    ['place', 'horizon', '90'],
  ),
  fc.array(part, { maxLength: 4 }),
)

const EDITS: readonly ((source: string, path: Path) => Edited)[] = [
  (source, path) => withValue(parseOutpostDocument(source), path, '7 µA'),
  (source, path) => withValue(parseOutpostDocument(source), path, ''),
  (source, path) => withoutEntry(parseOutpostDocument(source), path),
  (source, path) => withEntry(parseOutpostDocument(source), path, 'x', { y: ['z'] }),
  (source, path) => withItem(parseOutpostDocument(source), path, 1, { name: 'x' }),
  (source, path) => withMovedItem(parseOutpostDocument(source), path, 0, 1),
]

function holds(source: string, path: Path, which: number): void {
  const result = EDITS[which](source, path)
  if (!result.ok) {
    expect(result.why).toMatch(/^[A-Z].*\.$/s)
    return
  }
  const { errors, warnings } = parseDocument(result.text)
  const known = parseDocument(source)
  expect(errors.length).toBeLessThanOrEqual(known.errors.length)
  expect(warnings.length).toBeLessThanOrEqual(known.warnings.length)
  if (errors.length === 0 && !hasAliases(source) && path.length > 0)
    expect(others(result.text, path)).toEqual(others(source, path))
}

const hasAliases = (source: string): boolean => {
  let found = false
  visit(parseDocument(source), (_, node) => {
    found ||= isAlias(node)
  })
  return found
}

/** The data of all sections but the one that is edited. */
function others(source: string, [section]: Path): unknown {
  const data: unknown = parse(source, { logLevel: 'error' })
  const sections = typeof data === 'object' && data !== null ? Object.entries(data) : []
  return sections.filter(([key]) => key !== String(section))
}

const which = fc.nat(EDITS.length - 1)

test('on a good file with a few pieces replaced', () => {
  fc.assert(fc.property(broken, somewhere, which, holds), { seed: 51, numRuns: 600 })
})

test('on any text', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 60 }), somewhere, which, holds), {
    seed: 52,
    numRuns: 600,
  })
})

test('for any text to be put', () => {
  fc.assert(
    fc.property(
      fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: fc.constantFrom('\ud800', 'a', ' ', '\n') })),
      fc.constantFrom<Path>(['title'], ['supply', 'cell', 'type']),
      (text, path) => {
        fc.pre(text !== '')
        const result = withValue(parseOutpostDocument(SOLAR), path, text)
        if (!result.ok) throw new Error(result.why)
        const data = path.reduce<unknown>((each, key) => Reflect.get(each as object, key), parse(result.text))
        expect(data).toBe(text)
        const shown = valueAt(parseOutpostDocument(result.text), path)
        expect(shown).toMatchObject({ kind: 'text', text })
      },
    ),
    { seed: 53, numRuns: 200 },
  )
})
