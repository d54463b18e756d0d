/** Numbers that cannot be meant: too large to reckon with, or too many of a thing. */
import { describe, expect, test } from 'vitest'
import { MOST_RETRIES } from '../../wake/outcomes.ts'
import { readOutpost } from './read.ts'
import { describeSlips, type Slip } from './slips.contract.ts'
import { SOLAR } from './solar-outpost.contract.ts'

const SLIPS: readonly Slip[] = [
  ['number-too-large', 'brownout: 2.6 V', 'brownout: ¦1e308 kV'],
  ['number-too-large', 'for: 1 s', 'for: ¦1e308 years'],
  ['tolerance-malformed', 'rest: 20 µA', 'rest: ¦1e300 µA ± 1e300 %'],
  ['out-of-range', 'draws: 8 mA', 'draws: ¦1e308 A'],
  ['out-of-range', 'rest: 20 µA', 'rest: ¦20 µA [2 µA, 1e300 A]'],
  ['out-of-range', 'rest: 20 µA', 'rest: ¦20 µA ± 1e300 A'],
  ['out-of-range', 'rest: 20 µA', 'rest: ¦< 1e300 A'],
  ['out-of-range', 'rate: 10 min', 'rate: ¦1e6 years'],
  ['out-of-range', 'capacity: 2000 mAh', 'capacity: ¦1e300 C'],
  ['out-of-range', 'brownout: 2.6 V', 'brownout: ¦1e300 V'],
  ['out-of-range', 'capacity: 2000 mAh', 'capacity: 2000 mAh, series: ¦100000'],
  ['out-of-range', 'reports: 1', 'reports: 1\n      every: ¦1000000000000'],
  [
    'too-many-periods',
    '    - name: send',
    `${Array.from({ length: 13 }, (_, k) => `    - { name: s${k}, for: 1 ms, draws: 1 mA, every: ${k === 12 ? '¦' : ''}${k + 2} }`).join('\n')}\n    - name: send`,
  ],
  ['out-of-range', 'times: 2,', 'times: ¦10000,'],
  ['out-of-range', 'years: 5', 'years: ¦1e308'],
]
describeSlips('a number', SOLAR, SLIPS)

describe('as many as there may be', () => {
  test('tries are read in no time', () => {
    const most = SOLAR.replace('times: 2,', `times: ${MOST_RETRIES},`)
    expect(readOutpost(most).ok).toBe(true)
  })

  test('the bound is named', () => {
    const result = readOutpost(SOLAR.replace('draws: 8 mA', 'draws: 2000 A'))
    expect(result.ok ? '' : result.diagnostics[0].expected).toBe('at most 1000 A')
  })
})
