import { describe, expect, it } from 'vitest'
import {
  cellNames,
  cellOf,
  chemistriesByCapacity,
  findCell,
  nearestCellName,
  sourceOf,
} from './cell-catalogue.ts'
import { meaningOf } from './cell-catalogue-names.ts'
import { discharge } from './discharge.ts'

describe('cell catalogue', () => {
  it('finds each name, whatever its case, once', () => {
    expect(new Set(cellNames).size).toBe(cellNames.length)
    for (const name of cellNames) expect(findCell(` ${name.toLowerCase()} `)?.name).toBe(name)
    expect(findCell('LR7')).toBeNull()
  })

  it('names the nearest', () => {
    expect(nearestCellName('CR2302')).toBe('CR2032')
    expect(nearestCellName('lifepo')).toBe('LiFePO4')
    expect(nearestCellName('ER14550')).toBe('ER14505')
    expect(nearestCellName('li ion')).toBe('Li-ion')
    expect(nearestCellName('CR 2032')).toBe('CR2032')
    expect(nearestCellName('supercapacitr')).toBe('supercapacitor')
  })

  it.each([
    'CR123A',
    'LiSOCl2',
    'alkaline',
    'supercap',
    'LIR2032',
    'NiMH',
    '9V',
    'HR20',
    'LR44',
    'lead acid',
    'constructor',
  ])('names no other cell for %s', (name) => {
    expect(nearestCellName(name)).toBeNull()
  })

  // From memory, as the names are used at the counter.
  it.each([
    ['CR123A', /^CR17345/],
    ['Li-SOCl2', /^ER14505/],
    ['li-mno2', /CR2032.*CR17345/],
    ['alkaline', /LR03.*LR6/],
    ['NiMH', /^HR6.*capacity/],
    ['HR20', /^HR6.*capacity/],
    ['LIR2032', /^Li-ion.*rechargeable/],
    ['lead acid', /^VRLA/],
    ['supercap', /^supercapacitor.*capacitance/],
  ])('%s is a name of everyday', (name, meaning) => {
    expect(meaningOf(name)).toMatch(meaning)
  })

  it('knows no meaning of words of the language it is written in', () => {
    expect(meaningOf('constructor')).toBeNull()
  })

  it('scales a chemistry: twice the capacity at twice the current lasts as long', () => {
    for (const chemistry of chemistriesByCapacity) {
      const hours = [3600, 7200].map((capacity_C) => {
        const cell = cellOf(chemistry, capacity_C)
        const load = { kind: 'current', current_A: capacity_C / 7200 } as const
        return discharge({
          cell,
          pattern: [{ load, duration_s: 1e6 }],
          temperature_C: 0,
          end_V: 0,
          fade: 0,
          longest_s: Infinity,
        }).elapsed_s
      })
      expect(hours[1]).toBeCloseTo(hours[0], 6)
    }
  })

  it('refuses a size where sizes are fixed, and sizes that are none', () => {
    expect(() => cellOf('alkaline', 3600)).toThrow(/LR03, LR6, LR14, LR20/)
    expect(() => cellOf('Li-ion', 0)).toThrow(RangeError)
    expect(() => cellOf('Li-ion', Number.NaN)).toThrow(RangeError)
    expect(() => cellOf('Li-ion', Infinity)).toThrow(RangeError)
  })

  it('says of every chemistry where its constants come from', () => {
    for (const name of cellNames)
      expect(sourceOf(findCell(name)!.chemistry)).toMatch(/from memory|by definition/)
  })

  it('orders sizes of one kind as their sizes are', () => {
    const capacities = ['LR03', 'LR6', 'LR14', 'LR20'].map((name) => findCell(name)!.capacity_C)
    expect(capacities).toEqual([...capacities].sort((a, b) => a - b))
  })
})
