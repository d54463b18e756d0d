import { describe, expect, it } from 'vitest'
import { cautionsFor } from './cautions.ts'
import { cellNames, findCell } from './cell-catalogue.ts'

const cautions = (name: string) => cautionsFor(findCell(name)!.chemistry, name).join('\n')

describe('cautions', () => {
  it('end, for every cell, with who knows better', () => {
    for (const name of cellNames)
      expect(cautionsFor(findCell(name)!.chemistry, name).at(-1)).toMatch(
        /data sheet, local codes and licensed/,
      )
  })

  it('forbid charging exactly what cannot be charged', () => {
    for (const name of cellNames.filter((each) => each !== 'ideal'))
      expect(cautions(name).includes('never be charged')).toBe(findCell(name)!.charging === null)
  })

  it.each([
    ['Li-ion', /below 0 °C/],
    ['LiFePO4', /above 45 °C/],
    ['Li-ion', /do not recharge/],
    ['VRLA', /hydrogen/],
    ['CR2032', /children/],
    ['Li-ion', /open circuit in the cold/],
    ['LR6', /sealed box in the sun/],
    ['HR6', /short circuit/],
  ])('of %s warn: %s', (name, warning) => {
    expect(cautions(name)).toMatch(warning)
  })

  it('warn of children with coin cells only', () => {
    expect(cautions('CR17345')).not.toMatch(/children/)
  })
})
