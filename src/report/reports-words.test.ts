import { expect, it } from 'vitest'
import type { Outlook } from '../outlook/outlook.ts'
import { reportsInWords } from './reports-words.ts'

const words = (
  reportsPerDay: Outlook['reportsPerDay'],
  { spread = 0, inVain = 0, rechargeable = false, runs = 100 } = {},
) =>
  reportsInWords({
    outlook: { reportsPerDay, rechargeable, runs } as Outlook,
    reports: { spread, inVain },
  })

it('has three digits where the mean of the runs is known to them', () => {
  expect(words({ mean: 203.7, p5: 0, missed: 0 })).toBe('204 made while it lives')
  expect(words({ mean: 203.7, p5: 0, missed: 0 }, { spread: 0.02 })).toContain('204 made')
  // 20 % from run to run leave 2 % on the mean of a hundred runs, and 0.2 % on that of ten thousand.
  expect(words({ mean: 203.7, p5: 0, missed: 0 }, { spread: 0.2 })).toContain('200 made')
  expect(words({ mean: 203.7, p5: 0, missed: 0 }, { spread: 0.2, runs: 10_000 })).toContain('204 made')
})

it('names reports however rare they are', () => {
  expect(words({ mean: 0.01437, p5: 0, missed: 0 })).toBe('0.0144 made while it lives')
  expect(words({ mean: 0, p5: null, missed: 0.01 }, { rechargeable: true })).toBe(
    '0 made, < 0.1 missed while it is down',
  )
})

it('reckons with a spread by weather where there is a panel', () => {
  expect(words({ mean: 95.93, p5: 95.8, missed: 0.06 }, { rechargeable: true })).toBe(
    '95.9 made, 0.06 missed while it is down',
  )
  expect(words({ mean: 95.93, p5: 60, missed: 3.11 }, { rechargeable: true })).toBe(
    '96 made, 3.1 missed while it is down',
  )
})

it('tells of reports of which every try fails', () => {
  expect(words({ mean: 130.1, p5: 0, missed: 0 }, { inVain: 0.09 })).toBe(
    '130 made while it lives; 9 % of those tried are lost, every try in vain',
  )
})
