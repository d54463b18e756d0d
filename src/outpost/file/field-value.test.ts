import { describe, expect, it } from 'vitest'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { type FieldValue, valueAt } from './field-value.ts'

const at = (source: string, ...path: Path): FieldValue => valueAt(parseOutpostDocument(source), path)
const text = (text: string, line = 1, source: string | null = null) => ({ kind: 'text', text, source, line })

describe('valueAt', () => {
  it.each([
    ['as written, with its zeros', 'rest: 1.50 # c\n', '1.50'],
    ['without quotes', 'rest: "1 µA [2, 3]"\n', '1 µA [2, 3]'],
    ['folded', 'rest: 1\n  µA\n', '1 µA'],
    ['from a block', 'rest: |-\n  a\n  b\n', 'a\nb'],
    ['true or false', 'rest: true\n', 'true'],
    ['empty', 'rest:\n', ''],
  ])('gives a text %s', (_, source, value) => {
    expect(at(source, 'rest')).toEqual(text(value))
  })

  it('gives a source beside the number, and the line', () => {
    expect(at('x: 1\nrest: { is: 2 µA, source: "log 3" }\n', 'rest')).toEqual(text('2 µA', 2, 'log 3'))
    expect(at('x: 1\nrest:\n  is: 2 µA\n', 'rest')).toEqual(text('2 µA', 3))
    expect(at('x: 1\nrest: { is: 2 µA, source: log 3 }\n', 'rest', 'source')).toEqual(text('log 3', 2))
    expect(at('x: 1\n\nrest:\n', 'rest')).toEqual(text('', 3))
  })

  it('says what is no text', () => {
    const source = 'wake:\n  steps:\n    - { name: a, for: 1 s }\n'
    expect(at(source, 'wake')).toEqual({ kind: 'map', keys: ['steps'], line: 2 })
    expect(at(source, 'wake', 'steps')).toEqual({ kind: 'list', length: 1, line: 3 })
    expect(at(source, 'wake', 'steps', 0)).toEqual({ kind: 'map', keys: ['name', 'for'], line: 3 })
    for (const path of [
      ['boot'],
      ['wake', 'steps', 1],
      ['wake', 'steps', 'name'],
      ['wake', 'steps', 0, 'name', 'x'],
    ])
      expect(at(source, ...path)).toEqual({ kind: 'absent' })
    expect(at('', 'wake')).toEqual({ kind: 'absent' })
    expect(at('')).toEqual({ kind: 'absent' })
  })

  it('finds what is written short where it would stand in full', () => {
    expect(at('supply:\n  cell: LR6\n', 'supply', 'cell', 'type')).toEqual(text('LR6', 2))
    expect(at('supply:\n  cell: LR6\n', 'supply', 'cell', 'series')).toEqual({ kind: 'absent' })
    expect(at('place: London\n', 'place', 'weather', 'place')).toEqual(text('London'))
    expect(at('variants:\n  a:\n    place: London\n', 'variants', 'a', 'place', 'weather', 'place')).toEqual(
      text('London', 3),
    )
  })

  it('follows aliases', () => {
    const source = 'a: &a { b: 1 }\nc: *a\nd: *x\n'
    expect(at(source, 'c', 'b')).toEqual(text('1', 1))
    expect(at(source, 'c')).toEqual({ kind: 'map', keys: ['b'], line: 2 })
    expect(at(source, 'd')).toEqual(text('', 3))
  })
})
