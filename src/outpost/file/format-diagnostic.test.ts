import { describe, expect, test } from 'vitest'
import type { Diagnostic } from './diagnostic.ts'
import { formatDiagnostic } from './format-diagnostic.ts'

const at = (line: number, column: number, length: number): Diagnostic => ({
  code: 'unit-unknown',
  severity: 'error',
  path: ['rest'],
  range: { start: { line, column }, end: { line, column: column + length } },
  text: 'mAmp',
  variant: null,
  message: '"mAmp" is no unit of a current',
  expected: 'a current, as in "20 mA"',
  cure: 'did you mean "mA"?',
})

const options = { fileName: 'a.outpost.yaml' }

describe('formatDiagnostic', () => {
  test('points at the text, and says what was expected and the cure', () => {
    expect(formatDiagnostic(at(2, 9, 4), 'title: x\nrest: 2 mAmp\n', options)).toBe(
      [
        'a.outpost.yaml:2:9: error "mAmp" is no unit of a current [unit-unknown]',
        '  2 | rest: 2 mAmp',
        '    |         ^^^^',
        '    expected: a current, as in "20 mA"',
        '    cure: did you mean "mA"?',
      ].join('\n'),
    )
  })

  test('cuts a long line around the text', () => {
    const source = `rest: { is: ${'x'.repeat(120)} mAmp, source: ${'y'.repeat(120)} }`
    const [, line, caret] = formatDiagnostic(at(1, source.indexOf('mAmp') + 1, 4), source, options).split(
      '\n',
    )
    expect(line.length).toBeLessThan(110)
    expect(line.slice(caret.indexOf('^'), caret.lastIndexOf('^') + 1)).toBe('mAmp')
  })

  test('keeps tabs before the caret', () => {
    const [, line, caret] = formatDiagnostic(at(1, 8, 4), 'rest:\t2mAmp', options).split('\n')
    expect(line).toContain('\t')
    expect(caret.indexOf('\t')).toBe(line.indexOf('\t'))
  })

  test('names the variant, and colours only when asked', () => {
    const inVariant = { ...at(1, 1, 4), variant: 'batch of six' }
    expect(formatDiagnostic(inVariant, 'mAmp', options)).toContain('(in variant "batch of six")')
    expect(formatDiagnostic(inVariant, 'mAmp', options)).not.toContain('\x1b')
    expect(formatDiagnostic(inVariant, 'mAmp', { ...options, colour: true })).toContain('\x1b[31m')
  })
})
