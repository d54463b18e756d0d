import { expect, test, vi } from 'vitest'

vi.stubGlobal('location', new URL('http://localhost/start'))
vi.stubGlobal('addEventListener', () => {})
const { answersOf, blanksOf, fileNameFor, USUAL } = await import('./blanks.ts')

test('a title becomes a file name that is free', () => {
  expect(fileNameFor('Gauge by the ford', [])).toBe('gauge-by-the-ford.outpost.yaml')
  expect(fileNameFor('Señal más alta!', ['senal-mas-alta.outpost.yaml'])).toBe(
    'senal-mas-alta-2.outpost.yaml',
  )
  expect(fileNameFor('  ', ['new.outpost.yaml', 'new-2.outpost.yaml'])).toBe('new-3.outpost.yaml')
})

test('blanks come from the address, else are the usual ones', () => {
  const route = { page: 'start', file: null, variant: null, more: { every: '1 h' } } as const
  expect(blanksOf(route)).toEqual({ ...USUAL, interval: '1 h' })
})

test('what is optional and empty is left out', () => {
  expect(answersOf({ ...USUAL, place: ' ' })).toEqual({
    cell: 'LR6',
    interval: '10 min',
    awakeFor: '4 s',
    awakeCurrent: '25 mA',
    restCurrent: '20 µA',
  })
})
