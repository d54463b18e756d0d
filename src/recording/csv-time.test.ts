/** Oracles: the platform's own calendar (Date.UTC), ISO 8601, and clocks as read from the wall. */
import { describe, expect, test } from 'vitest'
import { CsvStream, planCsv } from './csv.ts'
import type { CsvOptions } from './csv-columns.ts'
import { monthComesFirst, parseCalendar } from './csv-time.ts'

function read(text: string, options: CsvOptions = {}) {
  const bytes = new TextEncoder().encode(text)
  const { firstByte, origin, notes, ...plan } = planCsv(bytes, options)
  const time: number[] = []
  const current: number[] = []
  const damaged: (string | null)[] = []
  const stream = new CsvStream(
    { ...plan, firstByte, origin, notes },
    {
      columns: ({ count, time_s, current_A }) => {
        time.push(...(time_s ?? []).slice(0, count))
        current.push(...current_A.subarray(0, count))
      },
      damaged: (_line, _sample, damage) => damaged.push(damage),
    },
  )
  stream.push(bytes.subarray(firstByte))
  stream.end()
  return { time, current, damaged, origin, notes }
}
const NOON = Date.UTC(2026, 4, 6, 12) / 1000

describe('times that loggers write', () => {
  test.each<[string, string, boolean?]>([
    ['2026/05/06 12:00:00.250', '2026-05-06T12:00:00.250Z'],
    ['06.05.2026 12:00:00,250', '2026-05-06T12:00:00.250Z'],
    ['6.5.26 12:00', '2026-05-06T12:00:00Z'],
    ['5/6/2026 12:00:00.250 PM', '2026-05-06T12:00:00.250Z', true],
    ['5/6/2026, 12:05 am', '2026-05-06T00:05:00Z', true],
    ['5/6/2026 1:05:09 p.m.', '2026-05-06T13:05:09Z', true],
    ['06-05-2026 23:59:59', '2026-05-06T23:59:59Z'],
  ])('%s', (text, iso, monthFirst = false) => {
    const time = parseCalendar(text, monthFirst)
    expect(time?.kind).toBe('moment')
    expect((time?.seconds ?? 0) + (time?.fraction ?? 0)).toBeCloseTo(Date.parse(iso) / 1000, 6)
  })

  test.each([
    '30.02.2026 12:00',
    '5/6/2026 13:00 PM',
    '5/6/2026 0:10 AM',
    '1.5',
    '12:34',
    '10.05',
    '04:99.5',
  ])('%s is no time', (text) => {
    expect(parseCalendar(text, false)).toBeNull()
  })

  test('which part of a date is the month is told by the dates themselves where they can', () => {
    expect(monthComesFirst(['5/6/2026 12:00', '5/13/2026 12:00'])).toEqual({ monthFirst: true, isSure: true })
    expect(monthComesFirst(['5/6/2026', '13/6/2026'])).toEqual({ monthFirst: false, isSure: true })
    expect(monthComesFirst(['5/6/2026 1:00 PM'])).toEqual({ monthFirst: true, isSure: false })
    expect(monthComesFirst(['06.05.2026 12:00'])).toEqual({ monthFirst: false, isSure: false })
    expect(monthComesFirst(['2026-05-06T12:00Z'])).toBeNull()
  })
})

describe('columns of times', () => {
  test.each<[string, string]>([
    ['ISO day and clock', 'Date,Time,Current (mA)\n2026-05-06,12:00:00.000,1\n2026-05-06,12:00:00.500,2\n'],
    ['clock before day', 'Time,Date,Current (mA)\n12:00:00.000,2026-05-06,1\n12:00:00.500,2026-05-06,2\n'],
    ['in German', 'Datum;Uhrzeit;Strom [mA]\n06.05.2026;12:00:00,000;1,0\n06.05.2026;12:00:00,500;2,0\n'],
    ['without header', '2026-05-06 12:00:00.000 0.001\n2026-05-06 12:00:00.500 0.002\n'],
    ['one column', 'Zeitstempel;Strom (mA)\n06.05.2026 12:00:00,000;1,0\n06.05.2026 12:00:00,500;2,0\n'],
    ['slashes', 'Day Time,Current (mA)\n2026/05/06 12:00:00.000,1\n2026/05/06 12:00:00.500,2\n'],
    ['twelve hours', 'Date/Time,I (mA)\n5/6/2026 12:00:00.000 PM,1\n5/6/2026 12:00:00.500 PM,2\n'],
    ['day and twelve hours', 'Date,Time,I (mA)\n5/6/2026,12:00:00.000 PM,1\n5/6/2026,12:00:00.500 PM,2\n'],
  ])('%s', (_, text) => {
    const { time, current, damaged, origin } = read(text)
    expect(time).toEqual([0, 0.5])
    expect(current).toEqual([0.001, 0.002].map(Math.fround))
    expect(damaged).toEqual([])
    expect(origin).toEqual({ kind: 'clock', epoch_s: NOON, zoned: false })
  })

  test('a day beside a clock turns over midnight', () => {
    const text =
      'Date,Time,Current (mA)\n2026-02-28,23:59:59,1\n2026-03-01,00:00:00,2\n2026-03-02,00:00:00,3\n'
    expect(read(text).time).toEqual([0, 1, 86_401])
  })

  test('a line without its day is damage, since nobody knows when it was', () => {
    const { time, damaged } = read(
      'Date,Time,I (mA)\n2026-02-28,00:00:00,1\nx,00:00:01,2\n2026-02-28,00:00:02,3\n',
    )
    expect(time).toEqual([0, 2])
    expect(damaged).toEqual(['x,00:00:01,2'])
  })

  test('days alone say no time, and a rate does', () => {
    const text = 'Date,Current (mA)\n2026-05-06,1\n2026-05-06,2\n'
    expect(() => read(text)).toThrow(/only days were found/)
    expect(read(text, { rate_Hz: 2 }).current).toEqual([0.001, 0.002].map(Math.fround))
  })

  test('minutes and seconds', () => {
    const { time, origin } = read('Time (mm:ss),Current (mA)\n00:58.500,1\n00:59.000,2\n01:00.250,3\n')
    expect(time).toEqual([0, 0.5, 1.75])
    expect(origin).toEqual({ kind: 'elapsed', first_s: 58.5 })
  })

  test('where the month may be either, the reading says which was taken', () => {
    const { notes } = read('Time,I (mA)\n5/6/2026 12:00:00,1\n5/6/2026 12:00:01,2\n')
    expect(notes).toContain('dates such as 5/6/2026 taken as with the month first')
  })
})

describe('clocks that start anew', () => {
  test.each<[string, string[], number]>([
    ['a time of day at midnight', ['23:59:59.000', '23:59:59.500', '00:00:00.000', '00:00:00.500'], 0.5],
    ['minutes at the full hour', ['59:59.000', '59:59.500', '00:00.000', '00:00.500'], 0.5],
  ])('%s', (_, times, step) => {
    const { time } = read(`Time,I (mA)\n${times.map((at) => `${at},1`).join('\n')}\n`)
    expect(time).toEqual(times.map((_each, k) => k * step))
  })

  test('a counter of 32 bits of microseconds', () => {
    const times = [-1e6, -5e5, 0, 5e5, 1e6].map((at) => (at + 2 ** 32) % 2 ** 32)
    const { time } = read(`time_us,I_mA\n${times.map((at) => `${at},1`).join('\n')}\n`)
    time.forEach((at, k) => {
      expect(at).toBeCloseTo(k / 2, 6)
    })
  })

  test('a clock set back an hour, or a board that restarts, is not taken for it', () => {
    expect(read('Time,I (mA)\n02:59:59,1\n03:00:00,2\n02:00:00,3\n').time).toEqual([0, 1, -3599])
    expect(read('time_us,I_mA\n2000000000,1\n2000500000,2\n0,3\n').time).toEqual([0, 0.5, -2000])
  })
})

describe('thousands apart', () => {
  test.each<[string, string, number[]]>([
    ['commas in quotes', 't_s,I_uA\n0,"10.052"\n1,"5,055.4"\n2,"1,234,567"\n', [10.052, 5055.4, 1_234_567]],
    [
      'points and a decimal comma',
      't_s;I_uA\n0;10,052\n1;5.055,4\n2;1.234.567\n',
      [10.052, 5055.4, 1_234_567],
    ],
    ['apostrophes', "t_s;I_uA\n0;10.052\n1;5'055.4\n2;1'234'567\n", [10.052, 5055.4, 1_234_567]],
  ])('%s', (_, text, values) => {
    const { current, damaged } = read(text)
    expect(damaged).toEqual([])
    expect(current).toEqual(values.map((x) => Math.fround(x / 1e6)))
  })

  test('one group alone could be a decimal: it is damage, not a guess', () => {
    expect(read('t_s,I_uA\n0,"10.5"\n1,"5,055"\n2,"10.5"\n').damaged).toEqual(['1,"5,055"'])
  })
})
