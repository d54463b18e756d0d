import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { parseOutpostDocument } from './document.ts'
import { withKey } from './edit-key.ts'

const FILE = `supply:
  regulator:
    # From the data sheet, figure 7.
    efficiency: { 20 µA: 62 %, 1 mA: 84 % } # typical
  other:
    10 mA: 1   # first
    30: 2
`
const at = ['supply', 'regulator', 'efficiency']
const renamed = (path: (string | number)[], key: string) => withKey(parseOutpostDocument(FILE), path, key)

describe('withKey', () => {
  it('changes the characters of the key and nothing else', () => {
    const result = renamed([...at, '20 µA'], '25 µA')
    expect(result).toMatchObject({ ok: true, text: FILE.replace('20 µA', '25 µA') })
  })

  it('quotes what YAML would read as something else', () => {
    const result = renamed([...at, '1 mA'], '1, mA')
    if (!result.ok) throw new Error(result.why)
    expect(parse(result.text).supply.regulator.efficiency).toEqual({ '20 µA': '62 %', '1, mA': '84 %' })
    expect(result.text).toContain('# typical')
  })

  it('renames on lines of their own, numbers too', () => {
    const result = renamed(['supply', 'other', '30'], '45')
    expect(result).toMatchObject({ ok: true, text: FILE.replace('30: 2', '45: 2') })
  })

  it('leaves a key that stays as it is', () => {
    expect(renamed([...at, '1 mA'], '1 mA')).toMatchObject({ ok: true, splices: [] })
  })

  it.each([
    ['a key that is there already', [...at, '1 mA'], '20 µA', /there already/],
    ['no name', [...at, '1 mA'], '', /needs a name/],
    ['what is not there', [...at, '5 mA'], '6 mA', /no mapping has/],
  ])('refuses %s', (_, path, key, why) => {
    const result = renamed(path, key)
    expect(result.ok).toBe(false)
    if (!result.ok) expect(result.why).toMatch(why)
  })
})
