import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import type { Path } from './diagnostic.ts'
import { parseOutpostDocument } from './document.ts'
import { type Splice, withNumbers } from './edit.ts'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'

const edited = (source: string, path: Path, text = '7 mA ± 1 mA', from = 'recording x.csv, state B') =>
  withNumbers(parseOutpostDocument(source), [{ path, text, source: from }])

const textOf = (source: string, path: Path, text?: string, from?: string): string => {
  const result = edited(source, path, text, from)
  if (!result.ok) throw new Error(result.why)
  return result.text
}

/** What a text was before these splices, which is what makes "everything else is kept" testable. */
function undone(after: string, before: string, splices: readonly Splice[]): string {
  let shift = 0
  let text = after
  for (const { start, end, text: put } of splices) {
    text = text.slice(0, start) + before.slice(start, end) + text.slice(start + put.length)
    shift += put.length - (end - start)
  }
  return shift === after.length - before.length ? text : 'lengths do not add up'
}

describe('withNumbers in every example', () => {
  const examples = readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml'))

  it.each(examples)('%s keeps all but the values, byte for byte', (name) => {
    const before = readFileSync(`examples/${name}`, 'utf8')
    const { wake } = parse(before) as { wake: { steps: unknown[] } }
    const changes = [
      { path: ['rest'], text: '3 µA ± 1 µA', source: 'recording a.csv, state A' },
      ...wake.steps.flatMap((_, k) => [
        { path: ['wake', 'steps', k, 'for'], text: '1.5 s ± 0.1 s', source: 'b' },
        { path: ['wake', 'steps', k, 'draws'], text: '20 mA ± 1 mA', source: 'b' },
        { path: ['wake', 'steps', k, 'peak'], text: '310 mA ± 4 mA for 8 ms', source: 'b' },
      ]),
    ]
    const result = withNumbers(parseOutpostDocument(before), changes)
    if (!result.ok) throw new Error(result.why)
    expect(undone(result.text, before, result.splices)).toBe(before)
    const data = parse(result.text) as { rest: unknown; wake: { steps: Record<string, unknown>[] } }
    expect(data.rest).toEqual({ is: '3 µA ± 1 µA', source: 'recording a.csv, state A' })
    for (const step of data.wake.steps)
      expect(step).toMatchObject({
        for: { is: '1.5 s ± 0.1 s', source: 'b' },
        draws: { is: '20 mA ± 1 mA', source: 'b' },
        peak: { is: '310 mA ± 4 mA for 8 ms', source: 'b' },
      })
    expect(readOutpost(result.text, { weather: () => null }).ok).toBe(true)
    const again = withNumbers(parseOutpostDocument(result.text), changes)
    expect(again).toMatchObject({ ok: true, splices: [] })
  })
})

describe('withNumbers', () => {
  it('keeps a comment behind the value', () => {
    const text = SOLAR.replace('rest: 20 µA', 'rest: 20 µA   # guess')
    expect(textOf(text, ['rest'])).toContain(
      'rest: { is: 7 mA ± 1 mA, source: "recording x.csv, state B" }   # guess\n',
    )
  })

  it('writes into a mapping on several lines, and adds a source where it lacks one', () => {
    const lines = 'rest:\n  is: 20 µA # first\n'
    expect(textOf(SOLAR.replace('rest: 20 µA\n', lines), ['rest'])).toContain(
      'rest:\n  is: 7 mA ± 1 mA # first\n  source: "recording x.csv, state B"\n',
    )
    const sourced = textOf(SOLAR.replace('rest: 20 µA\n', `${lines}  source: bench # where\n`), ['rest'])
    expect(sourced).toContain('  source: "recording x.csv, state B" # where\n')
  })

  it('writes into a mapping within braces, quoting what YAML would take for its own', () => {
    const flow = textOf(SOLAR, ['standing', 0, 'draws'], '2 µA [1 µA, 3 µA]', 'a "b", c')
    expect(flow).toContain(
      '{ name: divider, draws: { is: "2 µA [1 µA, 3 µA]", source: "a \\"b\\", c" }, from: cell }',
    )
  })

  it('keeps Windows line ends and a byte order mark', () => {
    const windows = `\uFEFF${SOLAR.replaceAll('\n', '\r\n')}`
    const after = textOf(windows, ['wake', 'steps', 0, 'peak'], '90 mA for 1 ms')
    expect(after.replaceAll('\r\n', '')).not.toContain('\n')
    expect(after.startsWith('\uFEFFoverwinter')).toBe(true)
    expect(after).toContain(
      '      draws: 8 mA\r\n      peak: { is: 90 mA for 1 ms, source: "recording x.csv, state B" }\r\n',
    )
  })

  it('adds a last line where the file ends without one', () => {
    const text = 'wake:\n  steps:\n    - name: a\n      draws: 1 mA'
    expect(textOf(text, ['wake', 'steps', 0, 'peak'], '2 mA for 1 ms', 'b')).toBe(
      `${text}\n      peak: { is: 2 mA for 1 ms, source: "b" }`,
    )
  })

  it.each([
    ['an anchor', 'rest: &low 20 µA', 'anchor'],
    ['a folded text', 'rest: >-\n  20 µA', 'several lines'],
    ['a text over two lines', 'rest: 20\n  µA', 'several lines'],
    ['a list', 'rest: [20 µA]', 'no plain value'],
  ])('leaves %s alone, and says why', (_, to, why) => {
    const result = edited(SOLAR.replace('rest: 20 µA', to), ['rest'])
    expect(result.ok).toBe(false)
    if (!result.ok) expect(result.why).toContain(why)
  })

  it('leaves an alias alone, and what is reached through one', () => {
    const twice = SOLAR.replace('    - name: send', '    - &one\n      name: send').replace(
      'cadence:',
      '  boot: [*one]\ncadence:',
    )
    expect(edited(twice, ['wake', 'boot', 0, 'draws'])).toMatchObject({ ok: false })
    const alias = SOLAR.replace('draws: 8 mA', 'draws: &d 8 mA').replace('draws: 40 mA', 'draws: *d')
    expect(edited(alias, ['wake', 'steps', 1, 'draws'])).toMatchObject({ ok: false })
  })
})
