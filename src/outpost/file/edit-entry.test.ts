import { describe, expect, it } from 'vitest'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { withEntry, withItem, withMovedItem, withoutEntry } from './edit-entry.ts'
import { textOf } from './edit-oracle.contract.ts'
import type { PlainData } from './edit-render.ts'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'
import type { Edited } from './splice.ts'

const open = parseOutpostDocument
const why = (result: Edited): string => (result.ok ? `made: ${result.text}` : result.why)

const STEPS = `wake:
  steps:   # in order
    # about a
    # and more about a
    - name: a   # first
      for: 1 s
      # peak: 3 mA
      # a word at its end

    # alone

    - name: b
      for: 2 s
# at the top
rest: 1 µA
`

describe('withoutEntry', () => {
  it.each<[string, string, Path, string]>([
    [
      'a step with its comments',
      STEPS,
      ['wake', 'steps', 0],
      'wake:\n  steps:   # in order\n\n    # alone\n\n    - name: b\n      for: 2 s\n# at the top\nrest: 1 µA\n',
    ],
    [
      'the first key of a step',
      STEPS,
      ['wake', 'steps', 0, 'name'],
      STEPS.replace('name: a   # first\n      for', 'for'),
    ],
    [
      'the last key of a step',
      'a:\n  - b: 1\n    # c\n    d: 2 # e\n  - f',
      ['a', 0, 'd'],
      'a:\n  - b: 1\n  - f',
    ],
    [
      'the first key, with the comment about the second',
      '- b: 1 # b\n  # c\n  c: 2\n',
      [0, 'b'],
      '- # c\n  c: 2\n',
    ],
    [
      'the only key of the only step',
      'a: 1\nwake: # w\n  # s\n  steps:\n    - name: x\n\nb: 2\n',
      ['wake', 'steps', 0, 'name'],
      'a: 1\n\nb: 2\n',
    ],
    ['the last section, at an open end', 'a: 1\nb: 2', ['b'], 'a: 1'],
    ['the last section, with the gap above', 'a: 1\n\nb: 2\n', ['b'], 'a: 1\n'],
    ['a section between gaps', 'a: 1\n\nb: 2\n\nc: 3\n', ['b'], 'a: 1\n\nc: 3\n'],
    ['a note over lines', 'a: |\n  x\n\n  y\n\nb: 2\n', ['a'], '\nb: 2\n'],
    ['the only section', '# head\na: 1\n', ['a'], '# head\n'],
    ['the first section, not the head of the file', '# head\na: 1 # a\nb: 2\n', ['a'], '# head\nb: 2\n'],
    ['the first within braces', 'x: { a: 1, b: 2 }\n', ['x', 'a'], 'x: { b: 2 }\n'],
    ['the middle within braces', 'x: {a: 1,b: 2,c: 3} # x\n', ['x', 'b'], 'x: {a: 1,c: 3} # x\n'],
    ['the last within braces', 'x: { a: 1, b: [2, 3] }\n', ['x', 'b'], 'x: { a: 1 }\n'],
    ['the last, ahead of a comma', 'x: [1, 2,]\n', ['x', 1], 'x: [1,]\n'],
    ['the only one within braces', 'x: { a: { b: 1 } }\ny: 2\n', ['x', 'a', 'b'], 'y: 2\n'],
    ['the only section, within braces', '{ x: { a: 1 } } # x\n', ['x', 'a'], '{} # x\n'],
    [
      'a line of braces over lines',
      'x: {\n    a: 1, # a\n    # b\n    b: 2, # b\n    c: 3 # c\n  }\n',
      ['x', 'b'],
      'x: {\n    a: 1, # a\n    c: 3 # c\n  }\n',
    ],
    [
      'the last line of braces over lines',
      'x: [\n    1, # a\n    2 # b\n  ]\n',
      ['x', 1],
      'x: [\n    1 # a\n  ]\n',
    ],
    ['one whose comment may be about others', 'x: [1, 2, # both\n  3]\n', ['x', 1], 'x: [1, # both\n  3]\n'],
    ['the last, behind a comment about another', 'x: [1, # a\n  2]\n', ['x', 1], 'x: [1 # a\n  ]\n'],
    ['an alias', 'a: &a 1\nb: *a\n', ['b'], 'a: &a 1\n'],
    ['what is not there', 'a: 1\n', ['b', 0], 'a: 1\n'],
    ['Windows line ends', 'a: 1\r\n# b\r\nb: 2\r\nc: 3\r\n', ['b'], 'a: 1\r\nc: 3\r\n'],
    ['a list in the column of its key', 'a:\n# b\n- b\n# c\n- c\nd: 1\n', ['a', 0], 'a:\n# c\n- c\nd: 1\n'],
    ['a long key', '? a\n: 1\n? b\n: 2\n', ['a'], '? b\n: 2\n'],
  ])('takes out %s', (_, before, path, after) => {
    expect(textOf(withoutEntry(open(before), path))).toBe(after)
  })

  it('keeps what others are an alias of', () => {
    expect(why(withoutEntry(open('a: &a 1\nb: *a\n'), ['a']))).toContain('anchor (&)')
  })
})

describe('withItem', () => {
  const put = (before: string, path: Path, index: number, value: PlainData) =>
    textOf(withItem(open(before), path, index, value))

  it('writes a step as its neighbours are written, and leaves out what has no text', () => {
    const step = {
      name: 'warm up',
      for: '2 s [1 s, 4 s]',
      draws: '4 mA',
      note: '',
      retries: { probability: '5 %', times: '2' },
    }
    const after = put(SOLAR, ['wake', 'steps'], 1, step)
    expect(after).toContain(
      '      draws: 8 mA\n    - name: warm up\n      for: 2 s [1 s, 4 s]\n      draws: 4 mA\n      retries: { probability: 5 %, times: 2 }\n    - name: send\n',
    )
    expect(readOutpost(after).ok).toBe(true)
  })

  it.each<[string, string, number, PlainData, string]>([
    [
      'in braces on lines',
      'x:\n  - { a: 1 }\n',
      1,
      { a: '[', b: '2' },
      'x:\n  - { a: 1 }\n  - { a: "[", b: 2 }\n',
    ],
    ['in brackets', 'x: ["06:00", "18:30"] # x\n', 1, '12:00', 'x: ["06:00", "12:00", "18:30"] # x\n'],
    ['in a list that is missing', 'x:\n', 0, { a: '1' }, 'x:\n  - a: 1\n'],
    ['in a list without entries', 'x: [] # none\n', 0, { a: '1' }, 'x: # none\n  - a: 1\n'],
    ['in a list in the column of its key', 'x:\n- a\ny: 1\n', 1, 'b', 'x:\n- a\n- b\ny: 1\n'],
    [
      'apart where others are',
      'x:\n  - a: 1\n    b: 2\n\n  - a: 3\n    b: 4\ny: 1\n',
      2,
      { a: '5', b: '6' },
      'x:\n  - a: 1\n    b: 2\n\n  - a: 3\n    b: 4\n\n  - a: 5\n    b: 6\n\ny: 1\n',
    ],
    ['first', 'x:\n  # about a\n  - a\n', 0, 'b', 'x:\n  - b\n  # about a\n  - a\n'],
    [
      'at an open end',
      'x:\n  - a',
      1,
      { b: '1', c: 'two\nlines' },
      'x:\n  - a\n  - b: 1\n    c: |-\n      two\n      lines',
    ],
  ])('puts it %s', (_, before, index, value, after) => {
    expect(put(before, ['x'], index, value)).toBe(after)
  })

  it('goes behind what belongs to the entry before', () => {
    expect(put(STEPS, ['wake', 'steps'], 1, { name: 'c' })).toContain(
      '# a word at its end\n    - name: c\n\n    # alone',
    )
  })

  it('says why not', () => {
    expect(why(withItem(open(SOLAR), ['wake', 'steps'], 3, 'x'))).toContain('places go from 0 to 2')
    expect(why(withItem(open(SOLAR), ['wake', 'steps'], 0.5, 'x'))).toContain('no place 0.5')
    expect(why(withItem(open(SOLAR), ['wake'], 0, 'x'))).toContain('something else than a list')
  })
})

describe('withEntry', () => {
  const put = (before: string, path: Path, key: string, value: PlainData) =>
    textOf(withEntry(open(before), path, key, value))

  it('puts what a form makes where the format has it', () => {
    const panel = { rated: '1 W at 6 V' }
    const without = SOLAR.replace(/ {2}panel: .*\n/, '')
    expect(put(without, ['supply'], 'panel', panel)).toContain(
      '12 V }\n  panel: { rated: 1 W at 6 V }\nplace:',
    )
    expect(put(SOLAR, ['place', 'horizon'], '120', '7')).toContain('{ 90: 5, 120: 7, 180: 9 }')
    expect(put(SOLAR, ['variants'], 'two cells', { supply: { cell: { parallel: '2' } } })).toContain(
      '  years: 5\nvariants:\n  two cells:\n    supply:\n      cell:\n        parallel: 2\n',
    )
    expect(put('place: London # c\n', ['place', 'horizon'], '90', '5')).toBe(
      'place: # c\n  horizon:\n    90: 5\n  weather:\n    place: London\n',
    )
  })

  it.each<[string, string, PlainData, string]>([
    ['a mapping by a text', 'a:\n  # b\n  b: 1\nc: 2\n', 'none', 'a: none\nc: 2\n'],
    [
      'a text by a mapping',
      'a: none # a\nc: 2\n',
      { b: '1', d: ['2'] },
      'a: # a\n  b: 1\n  d:\n    - 2\nc: 2\n',
    ],
    ['braces by braces', 'a: { b: 1 } # a\n', { c: '2' }, 'a: { c: 2 } # a\n'],
    ['a list by numbers on one line', 'a:\n  - 1 h\n  - 2 h\n', '1 2 h', 'a: 1 2 h\n'],
    ['a text by nothing at all', 'a: 1\nb: 2\n', null, 'a: null\nb: 2\n'],
    ['a text by an empty list', 'a: 1\n', [], 'a: []\n'],
    ['a text by none', 'a: 1\nb: 2\n', '', 'b: 2\n'],
    ['an anchored mapping', 'a: &x\n  b: 1\n', 'none', 'a: none\n'],
  ])('replaces %s', (_, before, value, after) => {
    expect(put(before, [], 'a', value)).toBe(after)
  })

  it('says why not', () => {
    expect(why(withEntry(open(SOLAR), ['wake', 'steps'], 'x', '1'))).toContain('a list stands there')
    expect(why(withEntry(open('a: &x\n  b: 1\nc: *x\n'), [], 'a', '1'))).toContain('anchor (&)')
  })
})

describe('withMovedItem', () => {
  it('takes the comments of both along, and leaves what stands between', () => {
    const moved = textOf(withMovedItem(open(STEPS), ['wake', 'steps'], 0, 1))
    expect(moved).toBe(`wake:
  steps:   # in order
    - name: b
      for: 2 s

    # alone

    # about a
    # and more about a
    - name: a   # first
      for: 1 s
      # peak: 3 mA
      # a word at its end
# at the top
rest: 1 µA
`)
    expect(textOf(withMovedItem(open(moved), ['wake', 'steps'], 1, 0))).toBe(STEPS)
  })

  it.each<[string, string, string]>([
    ['brackets', 'x: [a, "b, c", { d: 1 }] # x\n', 'x: [{ d: 1 }, a, "b, c"] # x\n'],
    [
      'brackets over lines',
      'x: [\n    a, # a\n    # b\n    b,\n    c # c\n  ]\n',
      'x: [\n    c, # c\n    a, # a\n    # b\n    b\n  ]\n',
    ],
    ['an open end', 'x:\n  - a # a\n  - b\n  - c', 'x:\n  - c\n  - a # a\n  - b'],
    ['Windows line ends', 'x:\r\n  - a\r\n  - b\r\n  - c\r\n', 'x:\r\n  - c\r\n  - a\r\n  - b\r\n'],
  ])('moves the last to the front, with %s', (_, before, after) => {
    expect(textOf(withMovedItem(open(before), ['x'], 2, 0))).toBe(after)
  })

  it('takes blank lines along where a text would take them for its own', () => {
    expect(textOf(withMovedItem(open('x:\n  - |+\n    a\n  - b\n\n  - c\n'), ['x'], 0, 1))).toBe(
      'x:\n  - b\n\n  - |+\n    a\n  - c\n',
    )
  })

  it('says why not', () => {
    expect(why(withMovedItem(open(SOLAR), ['wake', 'steps'], 0, 2))).toContain('places go from 0 to 1')
    expect(why(withMovedItem(open(SOLAR), ['wake'], 0, 1))).toContain('no list stands there')
    expect(why(withMovedItem(open('x: [a, # a\n  b]\n'), ['x'], 0, 1))).toContain('comments stand between')
    expect(why(withMovedItem(open('x:\n  - &a 1\n  - *a\n'), ['x'], 0, 1))).toContain('anchor (&)')
  })
})
