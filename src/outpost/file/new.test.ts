import { describe, expect, test } from 'vitest'
import { best } from '../../quantity/spread.ts'
import { type Answers, newOutpost } from './new.ts'
import { readOutpost } from './read.ts'

const FIVE: Answers = {
  cell: 'LR6',
  interval: '10 min',
  awakeFor: '4 s',
  awakeCurrent: '25 mA ± 10 %',
  restCurrent: '20 µA',
}

function written(answers: Answers) {
  const result = newOutpost(answers)
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('; '))
  const read = readOutpost(result.text)
  if (!read.ok) throw new Error(read.diagnostics.map(({ message }) => message).join('; '))
  return { text: result.text, ...read }
}

describe('newOutpost', () => {
  test('writes five numbers so that they read back', () => {
    const { outpost, warnings } = written(FIVE)
    expect(warnings).toEqual([])
    expect(outpost.supply.pack.cell.name).toBe('LR6')
    expect(outpost.wake.cadence.schedule).toEqual({ kind: 'rate', period_s: { kind: 'exact', value: 600 } })
    expect(outpost.wake.steps).toHaveLength(1)
    expect(best(outpost.wake.steps[0].duration_s)).toBe(4)
    expect(outpost.wake.steps[0].current_A).toEqual({
      kind: 'normal',
      value: 0.025,
      u: expect.closeTo(0.00125, 12),
    })
    expect(best(outpost.wake.rest_A)).toBe(20e-6)
  })

  test.each([
    ['2 x LR6', { series: 2, brownout_V: 1.6 }],
    ['Li-ion 2000 mAh', { series: 1, brownout_V: 3 }],
    ['CR2032', { series: 1, brownout_V: 2 }],
    ['supercapacitor 25 F', { series: 1, brownout_V: 1.35 }],
    ['3 × supercapacitor 25 F ± 10 %', { series: 3, brownout_V: 1.8 }],
    ['ideal 500 mAh', { series: 1, brownout_V: 1.8 }],
  ])('takes the cell "%s"', (cell, { series, brownout_V }) => {
    const { supply } = written({ ...FIVE, cell }).outpost
    expect(supply.pack.series).toBe(series)
    expect(best(supply.brownout.at_V)).toBeCloseTo(brownout_V, 9)
  })

  test('takes title, place and panel, and quotes what YAML would misread', () => {
    const { outpost } = written({
      ...FIVE,
      cell: 'Li-ion 2000 mAh',
      awakeFor: '4 s [2 s, 9 s]',
      title: 'Gauge: #3, north',
      place: 'Oslo',
      panel: '1 W at 6 V',
    })
    expect(outpost.title).toBe('Gauge: #3, north')
    expect(outpost.place.latitude_deg).toBeCloseTo(59.9, 1)
    expect(outpost.supply.charger?.kind).toBe('linear')
    expect(outpost.aims.winters).toBe(0.95)
  })

  test('is commented, and names the schema for editors only where it is told where that lies', () => {
    expect(written(FIVE).text).toMatch(/^# What this device does/)
    const withSchema = newOutpost(FIVE, '../schema/outpost.schema.json')
    expect(withSchema.ok && withSchema.text).toMatch(/^# yaml-language-server: \$schema=\.\.\/schema/)
  })

  test.each([
    [{ cell: 'LR66' }, 'cell', 'unknown-cell'],
    [{ cell: 'Li-ion' }, 'cell', 'cell-needs-capacity'],
    [{ cell: 'Li-ion 2 A' }, 'cell', 'unit-wrong-dimension'],
    [{ cell: '' }, 'cell', 'empty-value'],
    [{ interval: '10' }, 'interval', 'unit-missing'],
    [{ interval: '3 s' }, 'interval', 'work-overruns'],
    [{ awakeFor: '4 mA' }, 'awakeFor', 'unit-wrong-dimension'],
    [{ awakeCurrent: '25 mAh' }, 'awakeCurrent', 'unit-wrong-dimension'],
    [{ restCurrent: 'little' }, 'restCurrent', 'number-missing'],
    [{ place: 'Osl' }, 'place', 'unknown-place'],
    [{ panel: '1 W at 6 V' }, 'panel', 'primary-with-panel'],
    [{ panel: '1 W', cell: 'Li-ion 1 Ah' }, 'panel', 'pair-incomplete'],
    [{ panel: '1 W at 2 V', cell: 'Li-ion 1 Ah' }, 'panel', 'panel-never-charges'],
  ] as const)('refuses %j, and says of which answer: %s, %s', (wrong, answer, code) => {
    const result = newOutpost({ ...FIVE, ...wrong })
    expect(result.ok ? [] : result.problems).toContainEqual(expect.objectContaining({ answer, code }))
  })

  test('tells all that is wrong at once', () => {
    const result = newOutpost({ ...FIVE, cell: 'LR66', interval: '10', restCurrent: '3 V' })
    expect(result.ok ? [] : result.problems.map(({ answer }) => answer)).toEqual(
      expect.arrayContaining(['cell', 'interval', 'restCurrent']),
    )
  })
})
