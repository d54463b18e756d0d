import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { best } from '../../quantity/spread.ts'
import { formatDiagnostic } from './format-diagnostic.ts'
import { readParts } from './read-parts.ts'

const GOOD = `cells:
  - { name: small, type: Li-ion, capacity: 400 mAh, price: 3.10, weight: 9 g }
  - { name: large, type: Li-ion, capacity: 1000 mAh, price: 5.60, weight: 21 g, shelf: 4 }
panels:
  - { name: thumb, rated: 60 mW at 5.6 V, price: 1.90, weight: 5 g, shelf: 2 }
`

/** The one problem of a list: its code, and the text it points at. */
function problemOf(text: string) {
  const read = readParts(text)
  if (read.ok) throw new Error('the list reads')
  const [first] = read.diagnostics
  return { code: first.code, line: first.range.start.line, text: first.text, count: read.diagnostics.length }
}

describe('a parts list', () => {
  it('reads cells and panels as an outpost file does, and columns in base units', () => {
    const read = readParts(GOOD)
    if (!read.ok) throw new Error(read.diagnostics.map(({ message }) => message).join())
    const { cells, panels, columns } = read.parts
    expect(cells.map(({ name, pack }) => [name, best(pack.capacity_C)])).toEqual([
      ['small', 1440],
      ['large', 3600],
    ])
    expect(cells[0].costs).toEqual({ price: 3.1, weight: 0.009 })
    expect(best(panels[0].panel.maximumPower_V)).toBeCloseTo(5.6, 12)
    // Not every part says on which shelf it lies, so that cannot be added up.
    expect(columns).toEqual([
      { name: 'price', dimension: 'count' },
      { name: 'weight', dimension: 'mass' },
    ])
  })

  it('reads the example', () => {
    const read = readParts(readFileSync(new URL('../../../examples/parts.yaml', import.meta.url), 'utf8'))
    if (!read.ok) throw new Error(read.diagnostics.map(({ message }) => message).join())
    expect(read.parts.columns.map(({ name }) => name)).toEqual(['price', 'weight', 'size'])
  })

  it.each([
    ['no mapping', '- a\n- b\n', 'not-a-mapping', 1],
    ['an unknown section', GOOD.replace('panels:', 'panel:'), 'unknown-key', 4],
    ['a part without a name', GOOD.replace('name: large, ', ''), 'missing-key', 3],
    ['a name twice', GOOD.replace('name: large', 'name: small'), 'name-twice', 3],
    [
      'an unknown cell',
      GOOD.replace('type: Li-ion, capacity: 1000', 'type: Li-yon, capacity: 1000'),
      'unknown-cell',
      3,
    ],
    ['a wrong unit', GOOD.replace('capacity: 400 mAh', 'capacity: 400 mV'), 'unit-wrong-dimension', 2],
    ['a price with a currency', GOOD.replace('price: 5.60', 'price: 5.60 crowns'), 'not-a-cost', 3],
    ['a weight as a length', GOOD.replace('weight: 21 g', 'weight: 21 mm'), 'not-a-cost', 3],
    [
      'a panel with half its data sheet',
      GOOD.replace('rated: 60 mW at 5.6 V', 'open circuit: 6 V'),
      'panel-incomplete',
      5,
    ],
    ['no list', GOOD.replace(/cells:[\s\S]*panels/, 'cells: many\npanels'), 'wrong-type', 1],
    ['broken YAML', GOOD.replace('5 g, shelf: 2 }', '5 g'), 'yaml-bad-indent', 6],
  ])('says where %s is', (_, text, code, line) => {
    const found = problemOf(text)
    expect({ code: found.code, line: found.line }).toEqual({ code, line })
  })

  it('shows the line with a caret', () => {
    const text = GOOD.replace('price: 5.60', 'price: dear')
    const read = readParts(text)
    if (read.ok) throw new Error('the list reads')
    const shown = formatDiagnostic(read.diagnostics[0], text, { fileName: 'parts.yaml' })
    expect(shown).toMatch(/^parts\.yaml:3:61: error/)
    expect(shown).toMatch(/cure: /)
  })
})
