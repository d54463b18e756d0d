/** Oracles: Number() for every number, and the careful reader, line by line, for what is a row and what is damage. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readLine } from './csv-line.ts'
import type { ColumnPlan, RowPlan } from './csv-row-plan.ts'
import { type Rows, rowsFor } from './csv-row-room.ts'
import { readRows } from './csv-rows.ts'

const column = (role: ColumnPlan['role'], index: number, shift = 0, factor = 1, origin = 0): ColumnPlan => ({
  role,
  index,
  kind: 'number',
  shift,
  factor,
  origin,
})
const planOf = (columns: ColumnPlan[], separator = ',', mark = '.'): RowPlan => ({
  separator: separator.charCodeAt(0),
  merge: separator === ' ',
  mark: mark.charCodeAt(0),
  comments: [35],
  columns,
})

function rowsOf(bytes: Uint8Array, plan: RowPlan): Rows {
  const rows = rowsFor(bytes.length, plan)
  readRows(bytes, 0, bytes.length, plan, rows)
  return rows
}
const latin1 = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0))

/** What a number looks like, in a run of rows that look the same. */
interface Look {
  readonly whole: number
  readonly decimals: number | null
  readonly before: string
  readonly exponent: number | null
}
const look = fc.record({
  whole: fc.integer({ min: 0, max: 14 }),
  decimals: fc.option(fc.integer({ min: 0, max: 12 })),
  before: fc.constantFrom('', '', '', '-', ' ', '  -'),
  exponent: fc.option(fc.integer({ min: -25, max: 12 }), { freq: 3 }),
})
const digits = (random: () => number, count: number) =>
  Array.from({ length: count }, () => Math.floor(random() * 10)).join('')

interface Written {
  readonly text: string
  /** What it says, times 10^shift. */
  readonly value: (shift: number) => number
}

function written({ whole, decimals, before, exponent }: Look, random: () => number): Written {
  const sign = random() < 0.1 ? '-' : before
  const tail = decimals === null ? '' : `.${digits(random, decimals)}`
  const mantissa = sign + digits(random, whole || (decimals ? 0 : 1)) + tail
  const power =
    exponent === null ? '' : `e${exponent < 0 ? '-' : '+'}${String(Math.abs(exponent)).padStart(2, '0')}`
  return { text: mantissa + power, value: (shift) => Number(`${mantissa}e${(exponent ?? 0) + shift}`) }
}

const format = fc.record({
  separator: fc.constantFrom(',', ';', '\t', '|'),
  mark: fc.constantFrom('.', ','),
  lineEnd: fc.constantFrom('\n', '\r\n'),
  beside: fc.constantFrom('', '7', 'ok', '1.5'),
  after: fc.constantFrom('', '9', 'a note', '"it, too"'),
  shift: fc.constantFrom(0, -3, -6, -9),
  runs: fc.array(fc.record({ time: look, current: look, rows: fc.integer({ min: 1, max: 40 }) }), {
    minLength: 1,
    maxLength: 12,
  }),
  seed: fc.integer({ min: 1, max: 0x7fffffff }),
})

/** Multiplicative congruential generator (Park & Miller 1988). */
function parkMiller(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48271) % 0x7fffffff
    return state / 0x7fffffff
  }
}

test('every number is the double that Number() reads, whatever its neighbours look like', () => {
  fc.assert(
    fc.property(format, ({ separator, mark, lineEnd, beside, after, shift, runs, seed }) => {
      fc.pre(separator !== mark)
      const random = parkMiller(seed)
      const before = beside === '' ? 0 : 1
      const plan = planOf([column('time', before), column('current', before + 1, shift)], separator, mark)
      const texts = runs.flatMap(({ time, current, rows }) =>
        Array.from({ length: rows }, () => [written(time, random), written(current, random)]),
      )
      const lines = texts.map((pair) =>
        [
          ...(beside ? [beside] : []),
          ...pair.map(({ text }) => text.replace('.', mark)),
          ...(after ? [after] : []),
        ]
          .join(separator)
          .concat(lineEnd),
      )
      const rows = rowsOf(latin1(lines.join('')), plan)
      expect(rows).toMatchObject({ count: texts.length, lines: texts.length, damagedLines: 0 })
      expect([...rows.time_s!.subarray(0, rows.count)]).toEqual(texts.map(([time]) => time.value(0)))
      expect([...rows.current_A.subarray(0, rows.count)]).toEqual(
        texts.map(([, current]) => Math.fround(current.value(shift))),
      )
    }),
    { seed: 7, numRuns: 400 },
  )
})

/** The rows that come out when every line is read with care. */
function readWithCare(bytes: Uint8Array, plan: RowPlan) {
  const rows: number[][] = []
  const damaged: { line: number; sample: number }[] = []
  let line = 0
  for (let from = 0; from < bytes.length; line++) {
    const end = bytes.indexOf(10, from)
    const { sample, damaged: broken } = readLine(bytes, from, end, plan)
    if (broken) damaged.push({ line, sample: rows.length })
    if (sample) rows.push([sample.time_s, Math.fround(sample.current_A), Math.fround(sample.voltage_V)])
    from = end + 1
  }
  return { rows, damaged, lines: line }
}

const FORM = [...'0123456789', '.', ',', '-', '+', ' ', 'e', 'x', '"', '#', '\n', '\r', ';'].map((c) =>
  c.charCodeAt(0),
)

test.each<[string, RowPlan]>([
  ['three columns', planOf([column('time', 0), column('current', 1, -3), column('voltage', 2)])],
  ['units with factors and an origin', planOf([column('time', 0, 0, 60, 12.5), column('current', 1, -6)])],
  ['a column before', planOf([column('time', 1), column('current', 2)])],
  ['a column between', planOf([column('time', 0), column('current', 2)])],
  ['columns before and between, with exponents', planOf([column('time', 1), column('current', 3)])],
  ['columns of spaces', planOf([column('time', 0), column('current', 1)], ' ')],
  ['columns of spaces and one between', planOf([column('time', 0), column('current', 2)], ' ')],
  ['no times', planOf([column('current', 0)])],
])('%s: damage anywhere is seen as the careful reader sees it', (_name, plan) => {
  const separator = String.fromCharCode(plan.separator).repeat(plan.merge ? 2 : 1)
  const text = Array.from({ length: 60 }, (_, i) =>
    [(i * 0.02).toFixed(3), (80.5 + Math.sin(i)).toFixed(i % 30 < 20 ? 5 : 4), '3.30', '-1.25e-3'].join(
      separator,
    ),
  ).join('\n')
  const damages = fc.array(fc.tuple(fc.nat(text.length - 1), fc.constantFrom(...FORM)), { maxLength: 8 })
  fc.assert(
    fc.property(damages, (changes) => {
      const bytes = latin1(`${text}\n`)
      for (const [at, byte] of changes) bytes[at] = byte
      const rows = rowsOf(bytes, plan)
      const careful = readWithCare(bytes, plan)
      const got = Array.from({ length: rows.count }, (_, i) => [
        rows.time_s?.[i] ?? Number.NaN,
        rows.current_A[i],
        rows.voltage_V?.[i] ?? Number.NaN,
      ])
      expect(got).toEqual(careful.rows)
      expect(rows.damaged.map(({ line, sample }) => ({ line, sample }))).toEqual(careful.damaged)
      expect(rows.lines).toBe(careful.lines)
    }),
    { seed: 11, numRuns: 600 },
  )
})

test('rows are read the same from any place in a buffer, and nothing outside the text is looked at', () => {
  const short = planOf([column('current', 0)])
  const counted = rowsOf(latin1('1\n2\n3\n4\n5\n6\n'), short)
  expect([...counted.current_A.subarray(0, counted.count)]).toEqual([1, 2, 3, 4, 5, 6])

  const text = latin1('0.001,1.25\n0.002,1.50\n0.003,1.75\n0.004,2.00\n')
  const plan = planOf([column('time', 0), column('current', 1)])
  for (let at = 0; at < 12; at++) {
    const bytes = new Uint8Array(text.length + at).fill(55)
    bytes.set(text, at)
    const rows = rowsFor(bytes.length, plan)
    readRows(bytes, at, bytes.length, plan, rows)
    expect([...rows.current_A.subarray(0, rows.count)]).toEqual([1.25, 1.5, 1.75, 2])
    readRows(bytes.subarray(at), 0, text.length, plan, rows)
    expect([...rows.time_s!.subarray(0, rows.count)]).toEqual([0.001, 0.002, 0.003, 0.004])
  }
})
