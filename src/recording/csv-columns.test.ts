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
    ['ts,i\n0.000,1\n0.005,2\n', { time: 0, current: 1 }],
  ])('%j', (text, places, options = {}) => {
    expect(taken(text, options)).toEqual(places)
  })

  test('one column is not two things', () => {
    expect(() => taken('a,b\n0,1\n1,2\n', { time: 1, current: 1 })).toThrow(/one column cannot be two/)
  })
})
