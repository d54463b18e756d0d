import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { CsvStream, planCsv } from './csv.ts'
import type { CsvOptions } from './csv-columns.ts'

interface Read {
  time: number[]
  current: number[]
  voltage: number[]
  damaged: { line: number | null; text: string | null; count: number }[]
  notes: readonly string[]
  interval_s: number | null
}

function readBytes(bytes: Uint8Array, options: CsvOptions = {}, piece = bytes.length): Read {
  const plan = planCsv(bytes.subarray(0, 65536), options)
  const read: Read = {
    time: [],
    current: [],
    voltage: [],
    damaged: [],
    notes: plan.notes,
    interval_s: plan.interval_s,
  }
  const stream = new CsvStream(plan, {
    columns: ({ count, time_s, current_A, voltage_V }) => {
      read.current.push(...current_A.subarray(0, count))
      if (time_s) read.time.push(...time_s.subarray(0, count))
      if (voltage_V) read.voltage.push(...voltage_V.subarray(0, count))
    },
    damaged: (line, _sample, text, count) => read.damaged.push({ line, text, count }),
  })
  for (let at = plan.firstByte; at < bytes.length; at += piece) stream.push(bytes.subarray(at, at + piece))
  stream.end()
  return read
}

const read = (text: string, options: CsvOptions = {}, piece?: number) =>
  readBytes(new TextEncoder().encode(text), options, piece)
const f32 = (values: number[]) => values.map(Math.fround)

describe('dialects', () => {
  const same: [string, string, CsvOptions?][] = [
    ['comma with units in brackets', 'Time (s),Current (mA)\n0,1.5\n0.5,2.25\n1,3\n'],
    ['semicolon and decimal comma', 'Time [ms];I[uA]\n0;1500\n500;2250\n1000;3000\n'],
    ['decimal comma', 'time_s;current_mA\n0;1,5\n0,5;2,25\n1;3\n'],
    ['tab', 't\tI (mA)\n0\t1.5\n0.5\t2.25\n1\t3\n'],
    ['bar', 'Time/ms|Current/mA\n0|1.5\n500|2.25\n1000|3\n'],
    ['spaces in columns', '  t/s   I/mA\n  0.0    1.50\n  0.5    2.25\n  1.0    3.00\n'],
    ['byte order mark and CRLF', '\ufeffTime (s),Current (mA)\r\n0,1.5\r\n0.5,2.25\r\n1,3\r\n'],
    [
      'quotes around everything',
      '"Time (s)","Current (mA)"\n"0","1,5"\n"0,5","2,25"\n"1","3"\n',
      { mark: ',' },
    ],
    [
      'comments and blank lines',
      '# bench\n% more\n// and more\ntime_s,current_mA\n0,1.5\n\n# here\n0.5,2.25\n1,3\n',
    ],
    ['header in a comment', '# time_s, current_mA\n0,1.5\n0.5,2.25\n1,3\n'],
    ['units in a line of their own', 'Time,Current\ns,mA\n0,1.5\n0.5,2.25\n1,3\n'],
    [
      'settings above the table',
      'Range,200\nCount,3\n\nTime (s),Current (mA)\n0,1.5\n0.5,2.25\n1,3\n',
      { time: 'Time (s)' },
    ],
    ['no header', '0,1.5\n0.5,2.25\n1,3\n', { currentUnit: 'mA' }],
    ['no last line end', 'time_s,current_mA\n0,1.5\n0.5,2.25\n1,3'],
    ['exponents and signs', 'time_s,current_A\n+0,1.5e-3\n5E-1,0.225e-2\n1.0,+3.0e-03\n'],
    [
      'calendar times',
      'Timestamp,Current (mA)\n2026-01-31T23:59:59.500Z,1.5\n2026-02-01 00:00:00.000Z,2.25\n2026-02-01T01:00:00.5+01:00,3\n',
    ],
    ['times of day', 'clock,current_mA\n12:00:00,1.5\n12:00:00.5,2.25\n12:00:01,3\n'],
    [
      'seconds since 1970 in ms',
      'timestamp,current_mA\n1767225600000,1.5\n1767225600500,2.25\n1767225601000,3\n',
    ],
    ['sample number', 'sample,current_mA\n10,1.5\n11,2.25\n12,3\n', { rate_Hz: 2 }],
    ['voltage and others beside', 'note,Current (mA),x,Time (s)\n"a, b",1.5,9,0\nc,2.25,9,0.5\nd,3,9,1\n'],
  ]
  test.each(same)('%s', (_name, text, options = {}) => {
    for (const piece of [undefined, 1, 7]) {
      const result = read(text, options, piece)
      expect(result.time).toEqual([0, 0.5, 1])
      expect(result.current).toEqual(f32([0.0015, 0.00225, 0.003]))
      expect(result.damaged).toEqual([])
    }
  })

  test.each([
    'I[uA]',
    'Current (µA)',
    'Current (μA)',
    'current_uA',
    'CURRENT_UA',
    'Current in microamps',
    'currentUa',
    'I / µA',
    'uA',
  ])('%s is a current in microamperes', (name) => {
    expect(read(`t_s,${name}\n0,1\n1,2\n`).current).toEqual(f32([1e-6, 2e-6]))
  })

  test('a header in an 8-bit code page still reads its micro sign', () => {
    const bytes = new TextEncoder().encode('t_s,I (#A)\n0,1\n1,2\n').map((c) => (c === 35 ? 0xb5 : c))
    expect(readBytes(bytes).current).toEqual(f32([1e-6, 2e-6]))
  })

  test('thousands of further columns are passed over', () => {
    const more = Array.from({ length: 3000 }, (_, k) => `x${k}`).join(',')
    const row = (a: string) => `${a},${Array.from({ length: 3000 }, () => '7.5').join(',')}`
    const result = read(`time_s,current_mA,${more}\n${row('0,1')}\n${row('1,2')}\n`)
    expect(result.current).toEqual(f32([0.001, 0.002]))
  })

  test('a rate stands in for times', () => {
    const result = read('Current (mA)\n1\n2\n3\n', { rate_Hz: 1000 })
    expect(result.interval_s).toBe(0.001)
    expect(result.current).toEqual(f32([0.001, 0.002, 0.003]))
  })

  test('a voltage column is found by its unit', () => {
    expect(read('t (s),I (mA),U (mV)\n0,1,3300\n1,2,3250\n').voltage).toEqual(f32([3.3, 3.25]))
  })
})

describe('damage', () => {
  test('a damaged line is named by its number and what it holds', () => {
    const { damaged, current, time } = read('time_s,current_mA\n0,1\n1,2\nlost power\n3,4\n4,x7\n5\n')
    expect(damaged).toEqual([
      { line: 4, text: 'lost power', count: 1 },
      { line: 6, text: '4,x7', count: 1 },
      { line: 7, text: '5', count: 1 },
    ])
    expect(time).toEqual([0, 1, 3, 4, 5])
    expect(current.map((x) => Number.isNaN(x))).toEqual([false, false, false, true, true])
  })

  test('damage between the header and the first row keeps the header, and is reported', () => {
    const { damaged, current } = read('time_s,current_mA\nlost power\n0,1\n1,2\n2,3\n')
    expect(damaged).toEqual([{ line: 2, text: 'lost power', count: 1 }])
    expect(current).toEqual(f32([0.001, 0.002, 0.003]))
  })

  test('settings above a table are noted', () => {
    const { notes } = read('Range: 200\nGain: 3\ntime_s,current_mA\n0,1\n1,2\n')
    expect(notes).toContain('2 lines above the table passed over')
  })

  test('an absent value is no damage', () => {
    const { damaged, current } = read('time_s,current_mA\n0,1\n1,\n2,nan\n3,OL\n4,--\n5,inf\n6,2\n')
    expect(damaged).toEqual([])
    expect(current.map((x) => Number.isNaN(x))).toEqual([false, true, true, true, true, true, false])
  })

  test.each([
    '9.9E+37',
    '9.91e37',
    '-9.90000000000000E+37',
    '1e39',
    '99e300',
    '9900000000000000000000000000000000000',
  ])('a code for overload, %s, is no number and no damage, in any unit', (code) => {
    for (const unit of ['A', 'mA', 'nA']) {
      const { current, damaged } = read(`time_s,current_${unit}\n0,1\n1,2\n2,${code}\n3,1\n`)
      expect(damaged).toEqual([])
      expect(current.map((x) => Number.isFinite(x))).toEqual([true, true, false, true])
      expect(current[2]).toBeNaN()
    }
  })

  test.each([
    ['', /empty/],
    ['\ufffe', /no line of numbers/],
    ['hello\nworld\n', /no line of numbers/],
    ['a\0b', /zero bytes/],
    ['Current (mA)\n1\n2\n', /sampling rate/],
    ['time_s,temperature,humidity\n0,1,2\n1,2,3\n', /no column is called a current/],
  ])('%j is refused with a cure', (text, message) => {
    expect(() => read(text)).toThrow(message)
  })

  test('UTF-16 is refused with a cure', () => {
    expect(() => planCsv(Uint8Array.of(0xff, 0xfe, 0x31, 0))).toThrow(/save it as UTF-8/)
  })
})

/** The value of a number as written, times 10^shift, by the platform's own reader of decimals. */
function written(text: string, shift: number): number {
  const [mantissa, exponent = '0'] = text.replaceAll('"', '').replace(',', '.').split('e')
  return Math.fround(Number(`${mantissa}e${Number(exponent) + shift}`))
}

describe('properties', () => {
  const dialect = fc.record({
    separator: fc.constantFrom(',', ';', '\t', '|', ' '),
    mark: fc.constantFrom('.' as const, ',' as const),
    end: fc.constantFrom('\n', '\r\n'),
    quoted: fc.boolean(),
    bom: fc.boolean(),
    comment: fc.constantFrom('', '# by hand\n', '% x\n', '// y\n'),
    unit: fc.constantFrom<[string, number]>(['A', 0], ['mA', -3], ['uA', -6], ['nA', -9]),
    style: fc.constantFrom('plain', 'long', 'exponent'),
    voltage: fc.boolean(),
    piece: fc.integer({ min: 1, max: 200 }),
  })
  const sample = fc.tuple(fc.integer({ min: -2e9, max: 2e9 }), fc.integer({ min: 0, max: 9e6 }))

  test('what is written in any dialect is read back as the same float32', () => {
    fc.assert(
      fc.property(dialect, fc.array(sample, { minLength: 3, maxLength: 40 }), (way, samples) => {
        fc.pre(way.separator !== way.mark || way.quoted)
        const number = (digits: number, decimals: number) => {
          const text =
            way.style === 'exponent'
              ? (digits / 10 ** decimals).toExponential()
              : (digits / 10 ** decimals).toFixed(way.style === 'long' ? 20 : decimals)
          const marked = text.replace('.', way.mark)
          return way.quoted ? `"${marked}"` : marked
        }
        const rows = samples.map(([i, v], k) => {
          const fields = [number(k * 25, 3), number(i, 4)]
          return [...fields, ...(way.voltage ? [number(v, 6)] : [])].join(way.separator)
        })
        const header = ['time_s', `current_${way.unit[0]}`, ...(way.voltage ? ['voltage_V'] : [])].join(
          way.separator,
        )
        const text = `${way.bom ? '\ufeff' : ''}${way.comment}${[header, ...rows, ''].join(way.end)}`
        const result = read(text, {}, way.piece)
        const expected = samples.map(([i]) => written(number(i, 4), way.unit[1]))
        expect(result.current.map((x) => x + 0)).toEqual(expected.map((x) => x + 0))
        expect(result.time).toEqual(samples.map((_, k) => (k * 25) / 1000))
        if (way.voltage) expect(result.voltage).toEqual(samples.map(([, v]) => Math.fround(v / 1e6)))
        expect(result.damaged).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  test('bytes without sense are refused or read, and never hang', () => {
    const noise = fc.oneof(
      fc.uint8Array({ maxLength: 400 }),
      fc
        .string({ unit: fc.constantFrom(...'0123456789.,;\t "\n\r-+eE#/|naN:TZ'), maxLength: 400 })
        .map((s) => new TextEncoder().encode(s)),
    )
    fc.assert(
      fc.property(noise, fc.integer({ min: 1, max: 50 }), (bytes, piece) => {
        try {
          const result = readBytes(bytes, { rate_Hz: 10 }, piece)
          expect(result.current.length).toBeLessThanOrEqual(bytes.length)
        } catch (error) {
          expect(error).toBeInstanceOf(Error)
          expect((error as Error).message.length).toBeGreaterThan(10)
        }
      }),
      { numRuns: 1000 },
    )
  })
})
