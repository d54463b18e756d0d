import { describe, expect, test } from 'vitest'
import { parseOutpostDocument } from '../../outpost/file/document.ts'
import { designEdits, type Size, type SizedText } from './design-edits.ts'

const TEXT = `cadence:
  rest: 30 min ± 1 min   # so often
supply:
  cell: { type: LiFePO4, capacity: 1500 mAh ± 5 % }
  panel: { rated: 1 W at 6 V }
variants:
  quarter of the panel:
    supply: { panel: { rated: 0.25 W at 6 V } }
  in parallel:
    supply: { cell: { parallel: 2 } }
  other cell:
    supply: { cell: LR6 }
`
const OWN: Size = { capacity_C: 5400, panel_W: 1, interval_s: 1800 }
const QUARTER: Size = { ...OWN, panel_W: 0.25 }
const sizedFrom = (text: string, variant: string | null = null, own = OWN): SizedText => ({
  document: parseOutpostDocument(text),
  variant,
  own,
})

/** What stands in the file after a press; why not, where it cannot be. */
function pressed(sized: SizedText, now: string, chosen: Partial<Size>): string {
  const taken = designEdits(sized, parseOutpostDocument(now), { ...sized.own, ...chosen })
  if (!taken.ok) return taken.why
  return taken.edits.reduce((text, edit) => {
    const edited = edit(parseOutpostDocument(text))
    if (!edited.ok) throw new Error(edited.why)
    return edited.text
  }, now)
}

describe('a square of the map', () => {
  const sized = sizedFrom(TEXT)
  const square = { capacity_C: 3600, panel_W: 0.5, interval_s: 7200 }

  test('writes its cell, its panel and its interval; tolerance and comments stay where they can', () => {
    expect(pressed(sized, TEXT, square)).toBe(
      TEXT.replace('1500 mAh ± 5 %', '1000 mAh ± 5 %')
        .replace('rated: 1 W', 'rated: 0.5 W')
        .replace('30 min ± 1 min', '2 h'),
    )
  })

  test('writes the same however often it is pressed, and whatever was pressed before', () => {
    const once = pressed(sized, TEXT, square)
    expect(pressed(sized, once, square)).toBe(once)
    const other = pressed(sized, once, { capacity_C: 7200, panel_W: 2, interval_s: 600 })
    expect(pressed(sized, other, square)).toBe(once)
  })

  test('of the design itself brings back what was sized, as it was written', () => {
    expect(pressed(sized, pressed(sized, TEXT, square), {})).toBe(TEXT)
    const bare = TEXT.replace(', capacity: 1500 mAh ± 5 %', '').replace('LiFePO4', 'LR6')
    const written = pressed(sizedFrom(bare), bare, { capacity_C: 3600 })
    expect(written).toContain('capacity: 1 Ah')
    expect(pressed(sizedFrom(bare), written, {})).toBe(bare)
  })

  test('scales a capacitor, and a panel by its currents', () => {
    const text = TEXT.replace('capacity: 1500 mAh', 'capacitance: 10 F').replace(
      'rated: 1 W at 6 V',
      'short circuit: 90 mA, maximum power: 5.8 V at 82 mA',
    )
    const after = pressed(sizedFrom(text), text, { capacity_C: 10800, panel_W: 2 })
    expect(after).toContain('capacitance: 20 F ± 5 %')
    expect(after).toContain('short circuit: 180 mA, maximum power: 5.8 V at 164 mA')
    expect(after).not.toContain('capacity:')
  })

  test('counts the minutes of a clock', () => {
    const text = TEXT.replace('rest: 30 min ± 1 min', 'clock minutes: 30')
    expect(pressed(sizedFrom(text), text, { interval_s: 7200 })).toContain('clock minutes: 120   # so often')
  })

  test('is refused where the file says it otherwise by now', () => {
    const rate = TEXT.replace('rest: 30 min ± 1 min', 'rate: 30 min')
    expect(pressed(sized, rate, square)).toContain('Size it again')
    expect(pressed(sized, TEXT.replace(/ {2}panel.*\n/, ''), square)).toContain('The panel of the file')
  })
})

describe('a square of the map of a variant', () => {
  test('is refused where it would change a value that the variant has of its own', () => {
    const sized = sizedFrom(TEXT, 'quarter of the panel', QUARTER)
    expect(pressed(sized, TEXT, { panel_W: 0.5 })).toMatch(/“quarter of the panel” has a panel of its own/)
    expect(pressed(sizedFrom(TEXT, 'other cell'), TEXT, { capacity_C: 3600 })).toContain('a cell of its own')
  })

  test('writes what the variant shares with the file', () => {
    const sized = sizedFrom(TEXT, 'quarter of the panel', QUARTER)
    const after = TEXT.replace('1500 mAh', '1000 mAh')
    expect(pressed(sized, TEXT, { capacity_C: 3600 })).toBe(after)
    expect(pressed(sizedFrom(TEXT, 'in parallel'), TEXT, { capacity_C: 3600 })).toBe(after)
  })
})
