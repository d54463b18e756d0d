import { expect, test } from 'vitest'
import { parseOutpostDocument } from '../../outpost/file/document.ts'
import { pressName, type Thrifty, thriftEdits, whyNotWritten } from './thrift-edits.ts'

const TEXT = `cadence:
  rest: 30 min   # so often
  thrift:
    - { below: 3.24 V, interval: 1 h }
rest: 22 µA
variants:
  every ten minutes:
    cadence: { rest: 10 min }
  bigger:
    supply: { panel: { rated: 2 W at 6 V } }
`
const open = parseOutpostDocument
const found = (...rows: readonly (readonly [number | null, number])[]): Thrifty => ({
  schedule: 'rest',
  hysteresis_V: 0.05,
  table: {
    rows: rows.map(([below_V, interval_s]) => ({ below_V, interval_s })),
    reportsPerDay: 100,
    winters: { share: 1, low: 0.98, high: 1 },
  },
})
const written = (thrifty: Thrifty, text: string): string =>
  thriftEdits(thrifty).reduce((now, edit) => {
    const edited = edit(open(now))
    if (!edited.ok) throw new Error(edited.why)
    return edited.text
  }, text)

test('the interval and the rows below it take the place of those of the file', () => {
  const text = written(found([null, 300], [3.2, 3600], [3.1, 10_800]), TEXT)
  expect(text).toContain('rest: 5 min   # so often\n')
  expect(text.match(/below.*/g)).toHaveLength(2)
  expect(text).toMatch(/below: 3\.2 V[^}]*interval: 1 h[^}]*hysteresis: 50 mV/)
  expect(text).toMatch(/below: 3\.1 V[^}]*interval: 3 h/)
  expect(written(found([null, 300], [3.2, 3600], [3.1, 10_800]), text)).toBe(text)
})

test('one interval alone takes the table out, and the press says so', () => {
  const one = found([null, 20])
  expect(pressName(one, open(TEXT))).toBe('Write the interval into the file, and take its thrift table out')
  const text = written(one, TEXT)
  expect(text).toContain('rest: 20 s   # so often\nrest: 22 µA')
  expect(pressName(one, open(text))).toBe('Write the interval into the file')
  expect(pressName(found([null, 300], [3.2, 3600]), open(TEXT))).toBe('Write the table into the file')
})

test('minutes of a clock are counted', () => {
  const text = written(
    { ...found([null, 300]), schedule: 'clock minutes' },
    TEXT.replace('rest: 30 min', 'clock minutes: 30'),
  )
  expect(text).toContain('clock minutes: 5 ')
})

test('it is refused where the variant has a cadence of its own, or the file another kind by now', () => {
  const of = (variant: string | null) => ({ document: open(TEXT), variant })
  const one = found([null, 20])
  expect(whyNotWritten(one, of('every ten minutes'), open(TEXT))).toContain('a cadence of its own')
  expect(whyNotWritten(one, of('bigger'), open(TEXT))).toBeNull()
  expect(whyNotWritten(one, of(null), open(TEXT))).toBeNull()
  expect(whyNotWritten(one, of(null), open(TEXT.replace('rest: 30 min', 'rate: 30 min')))).toContain(
    'Find it again',
  )
})
