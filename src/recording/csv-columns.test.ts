import { describe, expect, test } from 'vitest'
import { planCsv } from './csv.ts'
import type { CsvOptions } from './csv-columns.ts'

const planned = (text: string, options: CsvOptions = {}) => planCsv(new TextEncoder().encode(text), options)

/** Places of the columns from 0, and powers of ten, by role. */
function taken(text: string, options: CsvOptions = {}) {
  const { columns } = planned(text, options).rows
  return Object.fromEntries(columns.map(({ role, index }) => [role, index]))
}

describe('which column is which', () => {
  test.each<[string, Record<string, number>, CsvOptions?]>([
    ['timestamp,value\n0.000,0.00001\n0.005,0.00002\n', { time: 0, current: 1 }],
    ['Sample,Reading\n0,0.00001\n1,0.00002\n', { time: 0, current: 1 }, { rate_Hz: 200 }],
    ['Sample,Time,Value (mA)\n0,0.000,1\n1,0.005,2\n', { time: 1, current: 2 }],
    ['Sample time (s),Reading\n0.000,1\n0.005,2\n', { time: 0, current: 1 }],
    ['Time (s),Amplitude,Current\n0.000,5,1\n0.005,5,2\n', { time: 0, current: 2 }],
    ['Current time,Current\n0.000,1\n0.005,2\n', { time: 0, current: 1 }],
    ['time,load amps\n0.000,1\n0.005,2\n', { time: 0, current: 1 }],
    ['time,Temperature,Amps CH1\n0.000,20,1\n0.005,20,2\n', { time: 0, current: 2 }],
    ['Time (s),Shunt voltage (mV),Current (mA)\n0,0.1,1\n1,0.2,2\n', { time: 0, current: 2 }],
    ['Time (s),Burden (mV),I (mA),U (V)\n0,0.1,1,3\n1,0.2,2,3\n', { time: 0, current: 2, voltage: 3 }],
    ['ts,i\n0.000,1\n0.005,2\n', { time: 0, current: 1 }],
  ])('%j', (text, places, options = {}) => {
    expect(taken(text, options)).toEqual(places)
  })

  test('one column is not two things', () => {
    expect(() => taken('a,b\n0,1\n1,2\n', { time: 1, current: 1 })).toThrow(/one column cannot be two/)
  })
})

describe('units in headers', () => {
  const POWERS = { A: 0, mA: -3, µA: -6 }
  const shiftOf = (
    header: string,
    options: CsvOptions = {},
    row = (a: string, b: string) => `${a}.0,${b}.5`,
  ) => {
    const { columns } = planned(`${header}\n${row('0', '10')}\n${row('5', '20')}\n`, options).rows
    const { shift, factor } = columns.find(({ role }) => role === 'current') ?? {}
    return { shift, factor }
  }

  test.each<[string, keyof typeof POWERS]>([
    ['Time (ms),Current (mA DC)', 'mA'],
    ['Time (ms),Current (DC mA)', 'mA'],
    ['Time (ms),Current (10 ohm) (mA)', 'mA'],
    ['Time (ms),Current CH1 (mA) avg', 'mA'],
    ['time_ms,current_ma_avg', 'mA'],
    ['Time (ms),Current (mA, avg)', 'mA'],
    ['Time (sec.),I_bat, mA', 'mA'],
    ['Time, s, I_bat, uA', 'µA'],
    ['Time (ms),Current (avg)', 'A'],
    ['Time (ms),Current (CH1)', 'A'],
    ['Time (ms),Min current', 'A'],
    ['time,PV current', 'A'],
  ])('%s is in %s', (header, unit) => {
    expect(shiftOf(header)).toEqual({ shift: POWERS[unit], factor: 1 })
  })

  test.each([
    [
      'an empty column at the end of each row',
      'Time (ms),Current (mA)',
      (a: string, b: string) => `${a},${b},`,
    ],
    [
      'empty names at the end of the header',
      'Time (ms),Current (mA),,',
      (a: string, b: string) => `${a},${b}`,
    ],
    [
      'a comment as header, with a column less',
      '# time_ms,current_mA',
      (a: string, b: string) => `${a},${b},,`,
    ],
  ])('%s: names and units still hold', (_, header, row) => {
    expect(shiftOf(header, {}, row)).toEqual({ shift: -3, factor: 1 })
  })

  test.each([
    ['Time (ms),Current (x10^-3 A)', /"x10\^-3 A" is no known unit/],
    ['Time (ms),Current (E-3 A)', /"E-3 A" is no known unit/],
    ['Time (ms),Current (?A)', /"\?A" is no known unit/],
    ['Time (ms),Current (mAh)', /"mAh" is no known unit/],
    ['Time (ms),Current (mA h)', /"mA h" is no known unit/],
    ['time_ms,current_counts', /"counts" is no known unit/],
    ['Time (fortnights),Current (mA)', /"fortnights" is no known unit/],
    ['Time (ms),Current (mA),Note', /line 1 names 3 columns .* hold 2/],
  ])('%s is refused rather than guessed', (header, message) => {
    expect(() => shiftOf(header)).toThrow(message)
  })

  test('a unit that is said goes before the header', () => {
    expect(shiftOf('Time (ms),Current (?A)', { currentUnit: 'uA' })).toEqual({ shift: -6, factor: 1 })
    expect(
      shiftOf('Time (ms),Current (mA),Note', { current: 2, currentUnit: 'mA', timeUnit: 'ms', time: 1 }),
    ).toEqual({
      shift: -3,
      factor: 1,
    })
  })
})

test('a header and one row are a table', () => {
  expect(taken('time_s,current_mA\n0,1\n')).toEqual({ time: 0, current: 1 })
  expect(planned('Range: 200\ntime_s,current_mA\n0,1\n1,2\n').notes).toContain(
    '1 line above the table passed over',
  )
})

test('counts are scaled as is said', () => {
  const { columns } = planned('t_s,current_counts\n0,1\n1,2\n', { scale_A: 0.5e-6 }).rows
  expect(columns.find(({ role }) => role === 'current')).toMatchObject({ shift: 0, factor: 0.5e-6 })
})

test('of several currents the mean is read, and the others are told', () => {
  const text = 'Time,Min Current (mA),Avg Current (mA),Max Current (mA)\n0,1,2,3\n1,1,2,3\n'
  expect(taken(text)).toEqual({ time: 0, current: 2 })
  expect(planned(text).notes).toContain('not read: "Min Current (mA)", "Max Current (mA)"')
  expect(taken('Time,Charge current limit (mA),Current (mA)\n0,500,2\n1,500,2\n').current).toBe(2)
  expect(taken('Time,Max current (mA)\n0,500\n1,500\n').current).toBe(1)
})
