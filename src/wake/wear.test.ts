import { describe, expect, it } from 'vitest'
import type { Kept } from './wake.ts'
import { keptProblems, wearOf } from './wear.ts'

const kept = (change: Partial<Kept>): Kept => ({
  name: 'readings',
  bytes: 16,
  memory: 'flash',
  endurance: 100_000,
  pageBytes: 256,
  pages: 16,
  ...change,
})
const years = (change: Partial<Kept>) => wearOf([kept(change)], 1440)[0].years!

describe('wear', () => {
  it('grows with pages and endurance, and with every whole record that fits a page', () => {
    expect(years({ pages: 32 })).toBeCloseTo(2 * years({}), 9)
    expect(years({ endurance: 10_000 })).toBeCloseTo(years({}) / 10, 9)
    expect(years({ bytes: 200 })).toBeCloseTo(years({}) / 16, 9)
    expect(years({ bytes: 129 })).toBe(years({ bytes: 256 }))
  })
  it('of a record over several pages takes all of them each time', () => {
    expect(years({ bytes: 600 })).toBeCloseTo(years({ bytes: 256 }) / 3, 9)
  })
  it('of EEPROM counts every write, though many records fit a page', () => {
    expect(years({ memory: 'eeprom' })).toBeCloseTo(years({}) / 16, 9)
  })
  it('takes a page that is not stated for one record', () => {
    expect(years({ pageBytes: null, pages: 1 })).toBeCloseTo(100_000 / 1440 / 365, 9)
  })
  it('is absent, with its reason, where nothing wears or nothing is written', () => {
    expect(wearOf([kept({ memory: 'clock-ram' })], 96)[0]).toMatchObject({
      years: null,
      reason: 'does not wear',
    })
    expect(wearOf([kept({ memory: 'fram', endurance: null })], 96)[0].reason).toBe('does not wear')
    expect(wearOf([kept({})], 0)[0]).toMatchObject({ years: null, reason: 'never written' })
  })
})

describe('problems of what is kept', () => {
  const codes = (resume: 'continue' | 'restart', ...keeps: Kept[]) =>
    keptProblems({ resume, keeps }).map(({ index, code }) => [index, code])
  it('RAM does not survive a restart; every other memory does', () => {
    expect(codes('restart', kept({ memory: 'clock-ram' }), kept({ memory: 'ram' }))).toEqual([
      [1, 'lost-on-restart'],
    ])
    expect(codes('restart', kept({}), kept({ memory: 'eeprom' }), kept({ memory: 'fram' }))).toEqual([])
    expect(codes('continue', kept({ memory: 'ram' }))).toEqual([])
  })
  it('a record must fit the pages it has', () => {
    expect(codes('continue', kept({ bytes: 4097 }), kept({ bytes: 4096 }))).toEqual([[0, 'does-not-fit']])
  })
})
