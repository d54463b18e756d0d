import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { textOf } from './edit-oracle.contract.ts'
import { withValue } from './edit-value.ts'
import { SOLAR } from './solar-outpost.contract.ts'

const set = (source: string, path: Path, text: string): string =>
  textOf(withValue(parseOutpostDocument(source), path, text))

const why = (source: string, path: Path, text = 'x'): string => {
  const result = withValue(parseOutpostDocument(source), path, text)
  return result.ok ? `made: ${result.text}` : result.why
}

describe('withValue on a value that is there', () => {
  it.each([
    ['a comment behind it', 'rest: 20 µA   # guess\n', 'rest: 7 µA   # guess\n'],
    ['quotes that were needed', 'rest: "20 µA [1 µA, 30 µA]"\n', 'rest: 7 µA\n'],
    ['quotes that are a habit', "rest: '20 µA'\n", "rest: '7 µA'\n"],
    ['a source beside it', 'rest: { is: 20 µA, source: bench }\n', 'rest: { is: 7 µA, source: bench }\n'],
    [
      'a source below it',
      'rest:\n  source: bench # 1\n  is: 20 µA # 2\n',
      'rest:\n  source: bench # 1\n  is: 7 µA # 2\n',
    ],
    ['nothing behind its colon', 'rest: # to do\ntitle: x\n', 'rest: 7 µA # to do\ntitle: x\n'],
    ['null', 'rest: ~\n', 'rest: 7 µA\n'],
    ['a folded text', 'rest: >- # c\n  20\n  µA\n\ntitle: x\n', 'rest: 7 µA # c\n\ntitle: x\n'],
    ['a text over two lines', 'rest: 20\n  µA # c\n', 'rest: 7 µA # c\n'],
    ['a text on the next line', 'rest:\n  # above\n  20 µA\n', 'rest:\n  # above\n  7 µA\n'],
    ['a quoted key', '"rest" : 20 µA\n', '"rest" : 7 µA\n'],
    ['an anchor that nobody uses', 'rest: &low 20 µA\n', 'rest: &low 7 µA\n'],
    ['a tag', 'rest: !!str 20\n', 'rest: 7 µA\n'],
    ['an alias, which then says something else alone', 'x: &a 1 µA\nrest: *a\n', 'x: &a 1 µA\nrest: 7 µA\n'],
    ['no end of line', 'rest: 20 µA', 'rest: 7 µA'],
    ['the line ends of Windows', 'rest: 20 µA\r\ntitle: x\r\n', 'rest: 7 µA\r\ntitle: x\r\n'],
    ['a byte order mark', '\uFEFFrest: 20 µA\n', '\uFEFFrest: 7 µA\n'],
    ['a tab before its comment', 'rest:\t20 µA\t# c\n', 'rest:\t7 µA\t# c\n'],
    ['a tight flow mapping', '{"rest":20}', '{"rest":7 µA}'],
  ])('with %s', (_, before, after) => {
    expect(set(before, ['rest'], '7 µA')).toBe(after)
  })

  it.each([
    ['3 s [2 s, 5 s]', 'for: 3 s [2 s, 5 s]', 'backoff: "3 s [2 s, 5 s]"'],
    ['a: b', 'for: "a: b"', 'backoff: "a: b"'],
    ['a #b', 'for: "a #b"', 'backoff: "a #b"'],
    ['< 3 s', 'for: < 3 s', 'backoff: < 3 s'],
    ['10 %', 'for: 10 %', 'backoff: 10 %'],
    ["it's", "for: it's", "backoff: it's"],
    ['3\ts', 'for: "3\\ts"', 'backoff: "3\\ts"'],
    ['null', 'for: "null"', 'backoff: "null"'],
    ['\u2028 \u0085', 'for: "\\u2028 \\u0085"', 'backoff: "\\u2028 \\u0085"'],
  ])('quotes %s where YAML needs it', (text, block, flow) => {
    expect(set(SOLAR, ['wake', 'steps', 1, 'for'], text)).toContain(`      ${block}\n`)
    expect(set(SOLAR, ['wake', 'steps', 1, 'retries', 'backoff'], text)).toContain(`${flow}, lasts`)
  })

  it('writes a number where the format has one, and a text where it has that', () => {
    expect(set(SOLAR, ['aims', 'years'], '7')).toContain('  years: 7\n')
    expect(set(SOLAR, ['wake', 'steps', 1, 'reports'], '2')).toContain('reports: 2\n')
    expect(set(SOLAR, ['title'], '2026')).toContain('title: "2026"\n')
    expect(set(SOLAR, ['title'], 'true')).toContain('title: "true"\n')
    expect(set(SOLAR, ['aims', 'no brown-out'], 'true')).toContain('  no brown-out: true\n')
    expect(set('cells:\n  - name: "600"\n', ['cells', 0, 'name'], '700')).toBe('cells:\n  - name: "700"\n')
  })

  it('writes a text of several lines as one, where lines can stand', () => {
    const note = 'first: line\n\n  indented # no comment\nlast'
    const block = set(SOLAR.replace('title: Gauge on a weir\n', 'title: Gauge # 1\n'), ['title'], note)
    expect(block).toContain('title: |- # 1\n  first: line\n\n    indented # no comment\n  last\nwake:')
    expect(parse(block)).toMatchObject({ title: note })
    expect(set(block, ['title'], 'short')).toContain('title: short # 1\nwake:')
    expect(set(SOLAR, ['standing', 0, 'name'], 'a\nb')).toContain('{ name: "a\\nb", draws')
    expect(set(SOLAR, ['wake', 'steps', 0, 'note'], 'a\nb\n')).toContain(
      '      draws: 8 mA\n      note: |\n        a\n        b\n    - name: send',
    )
  })

  it('changes nothing where the text is the same, however it is written', () => {
    for (const source of ['rest: "20 µA"\n', 'rest: { is: 20 µA, source: x }\n', 'rest: >-\n  20\n  µA\n'])
      expect(withValue(parseOutpostDocument(source), ['rest'], '20 µA')).toEqual({
        ok: true,
        text: source,
        splices: [],
      })
  })

  it('removes the key for an empty text, with its mapping where that is left empty', () => {
    const text = 'title: x\n# how long\naims:\n  # about years\n  years: 5 # at least\n\nrest: 1 µA\n'
    expect(set(text, ['aims', 'years'], '')).toBe('title: x\n\nrest: 1 µA\n')
    expect(set(text, ['aims', 'winters'], '')).toBe(text)
    expect(set('rest: { is: 1 µA, source: x }\ntitle: x\n', ['rest'], '')).toBe('title: x\n')
  })
})

describe('withValue on a value that is missing', () => {
  it.each<[string, Path, string]>([
    [
      'behind the key that comes before it',
      ['wake', 'steps', 0, 'chance'],
      '      draws: 8 mA\n      chance: 7\n',
    ],
    ['ahead of the key that comes after it', ['overwinter x'], '  years: 5\noverwinter x: 7\n'],
    ['within braces', ['supply', 'cell', 'series'], 'capacity: 2000 mAh, series: 7 }'],
    [
      'with the mapping around it',
      ['cadence', 'events', 'per day'],
      '  rate: 10 min\n  events:\n    per day: 7\n',
    ],
    ['in a further entry of a list', ['wake', 'steps', 2, 'for'], '      reports: 1\n    - for: 7\ncadence'],
    ['in a list of its own', ['wake', 'boot', 0, 'for'], '      reports: 1\n  boot:\n    - for: 7\ncadence'],
    [
      'in a variant',
      ['variants', 'a: b', 'supply', 'cell', 'series'],
      '  years: 5\nvariants:\n  "a: b":\n    supply:\n      cell:\n        series: 7\n',
    ],
    ['in the order of azimuths', ['place', 'horizon', '100'], '{ 90: 5, 100: 7, 180: 9 }'],
  ])('puts it %s', (_, path, part) => {
    expect(set(SOLAR, path, '7')).toContain(part)
  })

  it('puts the first key of a format first, behind what is said about the file', () => {
    expect(set('# about the file\ntitle: x\n', ['overwinter'], '1')).toBe(
      '# about the file\noverwinter: 1\ntitle: x\n',
    )
    expect(set('wake:\n  steps:\n    - for: 1 s # c\n', ['wake', 'steps', 0, 'name'], 'a')).toBe(
      'wake:\n  steps:\n    - name: a\n      for: 1 s # c\n',
    )
    expect(set('standing: [{ draws: 1 µA }]', ['standing', 0, 'name'], 'a')).toBe(
      'standing: [{ name: a, draws: 1 µA }]',
    )
  })

  it.each([
    ['an empty file', '', 'aims:\n  years: 5\n'],
    ['a file of comments', '# one\n# two', '# one\n# two\naims:\n  years: 5'],
    ['a section with nothing in it', 'aims: # none\ntitle: x\n', 'aims: # none\n  years: 5\ntitle: x\n'],
    ['empty braces', 'aims: {} # none\n', 'aims: # none\n  years: 5\n'],
    ['empty braces at the top', '{}', '{ aims: { years: 5 } }'],
    [
      'braces over lines',
      'aims: {\n    winters: 95 %, # c\n  }\n',
      'aims: {\n    winters: 95 %, # c\n    years: 5,\n  }\n',
    ],
    [
      'braces over lines, no last comma',
      'aims: {\n    winters: 95 % # c\n  }\n',
      'aims: {\n    winters: 95 %, # c\n    years: 5\n  }\n',
    ],
    [
      'four blanks a step',
      'supply:\n    cell:\n        type: x\n',
      'supply:\n    cell:\n        type: x\n\naims:\n    years: 5\n',
    ],
    ['a start of document', '--- # c\n', '--- # c\naims:\n  years: 5\n'],
    ['the line ends of Windows', 'title: x\r\n', 'title: x\r\n\r\naims:\r\n  years: 5\r\n'],
  ])('begins in %s', (_, before, after) => {
    expect(set(before, ['aims', 'years'], '5')).toBe(after)
  })

  it('sets sections apart where the file does', () => {
    const spaced = 'overwinter: 1\n\nrest: 1 µA\n\nplace: London\n'
    expect(set(spaced, ['aims', 'years'], '5')).toBe(`${spaced}\naims:\n  years: 5\n`)
    expect(set(spaced, ['resume'], 'restart')).toBe(spaced.replace('µA\n', 'µA\nresume: restart\n'))
    expect(set(spaced, ['supply', 'brownout'], '2 V')).toBe(
      spaced.replace('µA\n', 'µA\n\nsupply:\n  brownout: 2 V\n'),
    )
  })

  it('writes out what was short, and reads it as it was', () => {
    expect(set('supply:\n  cell: CR2450 # c\n', ['supply', 'cell', 'series'], '2')).toBe(
      'supply:\n  cell: { type: CR2450, series: 2 } # c\n',
    )
    expect(set('supply:\n  cell: CR2450 # c\n', ['supply', 'cell', 'type'], 'LR6')).toBe(
      'supply:\n  cell: LR6 # c\n',
    )
    expect(set('place: London\n', ['place', 'tilt'], '30')).toBe(
      'place:\n  tilt: 30\n  weather:\n    place: London\n',
    )
    expect(set('rest: 2 µA\n', ['rest', 'source'], 'log 3')).toBe('rest: { is: 2 µA, source: log 3 }\n')
    expect(set('rest: 2 µA\n', ['rest', 'source'], '')).toBe('rest: 2 µA\n')
    expect(set('rest: { is: 2 µA, source: log 3 }\n', ['rest', 'source'], 'log: 4')).toBe(
      'rest: { is: 2 µA, source: "log: 4" }\n',
    )
  })
})

describe('withValue says why it does nothing', () => {
  it.each<[string, string, Path, string]>([
    ['a syntax error', 'a: 1\nb: [\nc: 2\n', ['a'], 'Line 3 of the file is not YAML'],
    ['a tab that indents', 'a:\n\tb: 1\n', ['a', 'b'], 'Line 2 of the file is not YAML'],
    ['two documents', 'a: 1\n---\na: 2\n', ['a'], 'is not YAML'],
    ['an unknown alias', 'a: 1\nb: *c\n', ['a'], 'Line 2 of the file'],
    ['an alias within what it stands for', 'a: 1\nb: &c [*c]\n', ['a'], 'inside what it is an alias of'],
    ['an anchor in use', 'rest: &a 1\nx: *a\n', ['rest'], 'anchor (&)'],
    ['a value below an anchor in use', 'rest: &a { is: 1 }\nx: *a\n', ['rest'], 'anchor (&)'],
    ['a value behind an alias', 'x: &a { b: 1 }\nrest: *a\n', ['rest', 'b'], 'alias (*)'],
    ['a key that stands twice', 'rest: 1\nrest: 2\n', ['rest'], 'stands there twice'],
    ['a mapping', 'rest: { a: 1 }\n', ['rest'], 'a mapping stands there'],
    ['a list', 'rest: [1]\n', ['rest'], 'a list stands there'],
    ['a section that is one value', 'aims: none\n', ['aims', 'years'], 'a single value stands'],
    ['a list of sections', '- a\n', ['aims', 'years'], 'no entry aims'],
    ['a file that is one value', 'abc\n', ['aims', 'years'], 'a single value stands'],
    ['a list as the file', '', [0, 'years'], 'no mapping of sections'],
    ['a gap in a list', 'a:\n  - b: 1\n', ['a', 2, 'b'], 'no entry 2'],
    ['no path', 'a: 1\n', [], 'a mapping stands there'],
  ])('for %s', (_, source, path, part) => {
    expect(why(source, path)).toContain(part)
    expect(why(source, path)).toMatch(/^[A-Z].*\.$/)
  })

  it('leaves other keys free where one stands twice', () => {
    expect(set('a: 1\na: 2\nb: 3\n', ['b'], '4')).toBe('a: 1\na: 2\nb: 4\n')
  })
})
