/** Whatever stands in the file, the reader answers; it never throws, and every diagnostic lies inside the text. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { formatDiagnostic } from './format-diagnostic.ts'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'

/** What people leave behind when they edit: other numbers, units, signs, brackets, keys, blanks. */
const scraps = fc.oneof(
  fc.constantFrom(
    '',
    '0',
    '-1',
    '1e9',
    '1e308',
    '1e308 kV',
    '1e308 years',
    '1e308 A',
    '999',
    'null',
    'true',
    '~',
    '{',
    '}',
    '[',
    ']',
    ':',
    '- ',
    '\n',
    '  ',
    '\t',
    '#',
    '&a',
    '*a',
    '<<',
    '"',
  ),
  fc.constantFrom(
    '0 V',
    '1 mA',
    '1 kA',
    '5 %',
    '200 %',
    '1 h',
    '100 years',
    '-40 °C',
    '< 3 µA',
    '1 s [0 s, 2 s]',
    '2..1 V',
    '± 10 %',
  ),
  fc.constantFrom(
    'CR2032',
    'supercapacitor',
    'ideal',
    'diode',
    'maximum-power',
    'buck',
    'none',
    'restart',
    'events',
    'rest',
  ),
  fc.string({ maxLength: 6 }),
)
const pieces = SOLAR.split(/(?<=[\s{},:])|(?=[\s{},:])/)
const edits = fc.array(fc.tuple(fc.nat(pieces.length - 1), scraps), { minLength: 1, maxLength: 4 })

function edited(changes: readonly (readonly [number, string])[]): string {
  const copy = [...pieces]
  for (const [at, scrap] of changes) copy[at] = scrap
  return copy.join('')
}

test('on a good file with a few pieces replaced', () => {
  fc.assert(
    fc.property(edits, (changes) => {
      const text = edited(changes)
      const result = readOutpost(text)
      const lines = text.split(/\r\n|\n|\r/)
      for (const diagnostic of result.ok ? result.warnings : result.diagnostics) {
        const { line, column } = diagnostic.range.start
        expect(line).toBeGreaterThanOrEqual(1)
        expect(line).toBeLessThanOrEqual(lines.length)
        expect(column).toBeLessThanOrEqual((lines[line - 1] ?? '').length + 1)
        expect(formatDiagnostic(diagnostic, text, { fileName: 'x' })).toContain('^')
      }
    }),
    { seed: 20, numRuns: 250 },
  )
})

test('on any text', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (text) => {
      expect(typeof readOutpost(text).ok).toBe('boolean')
    }),
    { seed: 21, numRuns: 300 },
  )
})
