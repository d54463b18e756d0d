/** Cell, regulator and capacitor beside the curves they imply, in a real browser; numbers of the curves checked by hand. */
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { commentsOf, onFiles } from './workbench-on-files.ts'

const HUT = 'fjord-tide-hut.outpost.yaml'
const PATH = 'footpath-counter.outpost.yaml'
const DOOR = 'cold-store-door.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'

const on = onFiles([HUT, PATH, DOOR, FORD], {
  address: '/supply?file=',
  ready: (page) => page.getByRole('figure', { name: 'Voltage as it empties', exact: true }),
})

/** The numbers behind a figure, row by row; null where a cell is empty. */
const numbersOf = async (title: string): Promise<(number | null)[][]> =>
  (await on.numbersOf(title)).map((row) => row.map((text) => (text === '' ? null : Number(text))))

describe('the cell', () => {
  test('another capacity changes the file, the curves, the verdict; comments stay', async () => {
    await on.open()
    const verdict = () => on.page.locator('.verdict-words[data-current="true"]').textContent()
    const before = { verdict: await verdict(), sag: await numbersOf('Voltage as it empties') }
    await on.field('supply.cell.capacity').fill('150 mAh')
    await on.untilOnDisk((text) => text.includes('capacity: 150 mAh,'))
    expect(commentsOf(on.onDisk(HUT))).toEqual(commentsOf(on.originals[HUT]))
    await expect.poll(verdict, { timeout: 15_000 }).not.toBe(before.verdict)
    const after = await numbersOf('Voltage as it empties')
    // A cell sized by capacity has resistance in inverse proportion: four times as much.
    for (const [i, row] of after.entries()) expect(row[3]! / before.sag[i][3]!).toBeCloseTo(4, 3)
  })

  test('with neither regulator nor capacitor sags by current times resistance, and no more', async () => {
    await on.open(PATH)
    const rows = await numbersOf('Voltage as it empties')
    expect(rows.length).toBeGreaterThan(30)
    for (const [, , open_V, ohms, lowest_V, margin_V] of rows) {
      // The strongest burst is that of "send counts", 46 mA; rest goes on beneath it in the 46 mA.
      expect((open_V! - lowest_V!) / ohms!).toBeCloseTo(0.046, 3)
      expect(margin_V!).toBeCloseTo(open_V! - 0.046 * ohms! - 1.9, 4)
    }
    // Two in series: an FR6 of the catalogue rests at 1.8 V when full, and the pack at twice that.
    expect(rows[0].slice(0, 3)).toEqual([20, 100, expect.closeTo(2 * 1.8, 1)])
    const half = rows.find(([at_C, charged]) => at_C === 20 && charged === 50)!
    const reading = on.page.getByRole('slider', { name: 'Voltage by charge, read out' })
    await reading.focus()
    for (let i = 0; i <= 50; i++) await on.page.keyboard.press('ArrowRight')
    expect(await reading.getAttribute('aria-valuetext')).toContain(
      `50\u00a0% left: at 20 °C ${Number(half[2]!.toPrecision(3))} V, sags by ${Math.round(1000 * (half[2]! - half[4]!))} mV`,
    )
  })

  test('that nobody knows is told at the field, with the nearest that is known', async () => {
    await on.open(DOOR)
    await on.field('supply.cell.type').fill('CR2451')
    const problem = on.page.locator('.field', { has: on.field('supply.cell.type') }).locator('.problem.error')
    await problem.waitFor()
    expect(await problem.textContent()).toContain('Did you mean "CR2450"?')
    await on.field('supply.cell.type').fill('LR6')
    await problem.waitFor({ state: 'detached' })
    await on.untilOnDisk((text) => parse(text).supply.cell === 'LR6', DOOR)
    await on.field('supply.cell.series').fill('2') // the short form makes room for it
    await on.untilOnDisk(
      (text) => JSON.stringify(parse(text).supply.cell) === '{"type":"LR6","series":2}',
      DOOR,
    )
  })

  test('delivers nearly all of itself slowly, less fast, less in the cold', async () => {
    await on.open(DOOR)
    const rows = await numbersOf('What it delivers, by rate and cold')
    const [first] = rows
    expect(first[1]! / 600).toBeGreaterThan(0.97)
    for (const [i, [, mild, cold]] of rows.entries()) {
      expect(cold!).toBeLessThanOrEqual(mild!)
      if (i > 0) expect(mild!).toBeLessThanOrEqual(rows[i - 1][1]! + 1e-9)
    }
  })

  test('has its cautions beside it: coin cells and children, and who knows better', async () => {
    await on.open(DOOR)
    const care = on.page
      .locator('section', { has: on.page.locator('#cell') })
      .locator('.care')
      .first()
    expect(await care.textContent()).toMatch(/children.*data sheet, local codes and licensed practice/)
  })
})

describe('the regulator', () => {
  test('of another kind keeps what that kind knows, is sound, and is undone at once', async () => {
    await on.open()
    const kind = on.page.getByLabel('Between battery and device')
    await kind.selectOption('linear')
    await on.untilOnDisk((text) => parse(text).supply.regulator.kind === 'linear')
    expect(Object.keys(parse(on.onDisk(HUT)).supply.regulator)).toEqual(['kind', 'output', 'quiescent'])
    await kind.selectOption('')
    await on.untilOnDisk((text) => parse(text).supply.regulator === 'none')
    await kind.selectOption('boost')
    await on.untilOnDisk((text) => parse(text).supply.regulator.minimum === '0.9 V')
    for (let i = 0; i < 3; i++) await on.undo()
    await on.untilOnDisk((text) => text === on.originals[HUT])
  })

  test('at a stated current passes what the file says, but for its own needs (by hand)', async () => {
    await on.open()
    const rows = await numbersOf('What reaches the rail')
    // Half full it rests at 3.83 V. P = I·3.3 V / efficiency goes in, and 8 µA of quiescent current at 3.83 V beside it.
    for (const [rail_A, converter, whole] of rows) {
      const in_W = (rail_A! * 3.3) / (converter! / 100) + 8e-6 * 3.83
      expect(whole! / 100 / ((rail_A! * 3.3) / in_W)).toBeCloseTo(1, 4)
    }
  })

  test('a point of its curve is given another current, and the rest of the file stays', async () => {
    await on.open()
    const key = on.page.getByLabel('Output current 200 µA')
    await key.fill('0.5 mA')
    await key.press('Enter')
    await on.untilOnDisk((text) => text.includes('{ 20 µA: 62 %, 0.5 mA: 80 %, 10 mA: 90 %, 300 mA: 86 % }'))
    await on.page.getByRole('button', { name: 'Take 300 mA away' }).click()
    await on.untilOnDisk((text) => text.includes('{ 20 µA: 62 %, 0.5 mA: 80 %, 10 mA: 90 % }'))
    await on.field('supply.regulator.efficiency.10 mA').fill('105 %')
    await on.page.locator('.efficiency .problem.error').first().waitFor()
  })
})

describe('the capacitor', () => {
  test('takes off the sag what R, ESR and C say (by hand), and is taken away and put back', async () => {
    await on.open(DOOR)
    const rows = await numbersOf('Through the worst burst')
    const [first] = rows
    const last = rows.at(-1)!
    // 1.1 mA for 3 ms, 0.35 mA for 12 ms, then 11 mA for 3 ms through R, with 47 µF behind 0.55 Ω across it. R follows from the
    // line without the capacitor. Kirchhoff: of each change of current the capacitor leaves what ESR does at once, and gives
    // the rest up exponentially; what each change has come to by then adds up.
    const { open_V, ohms } = await sourceAt(rows)
    const [C_F, ESR_Ohm, peak_s, always_A] = [47e-6, 0.55, 3e-3, 0.3e-6]
    const changes = [
      { step_A: 1.1e-3 - 1.4e-6, before_s: 15e-3 },
      { step_A: 0.35e-3 - 1.1e-3, before_s: 12e-3 },
      { step_A: 11e-3 - 0.35e-3, before_s: 0 },
    ]
    const parallel = (ohms * ESR_Ohm) / (ohms + ESR_Ohm)
    const sag_V = (after_s: number) =>
      changes.reduce((sum, { step_A, before_s }) => {
        const gone = 1 - Math.exp(-(before_s + after_s) / ((ohms + ESR_Ohm) * C_F))
        return sum + step_A * (parallel + (ohms - parallel) * gone)
      }, 0)
    const settled_V = open_V - ohms * (0.5e-6 + 1.4e-6 + always_A)
    expect(first[1]!).toBeCloseTo(settled_V - sag_V(0), 4)
    expect(last[1]!).toBeCloseTo(settled_V - sag_V(peak_s), 4)
    await on.page.getByRole('button', { name: 'Take the capacitor away' }).click()
    await on.untilOnDisk((text) => parse(text).supply.capacitor === undefined, DOOR)
    await on.page.getByRole('button', { name: 'Add a capacitor' }).click()
    await on.untilOnDisk((text) => parse(text).supply.capacitor.ESR === '0.1 Ω', DOOR)
  })

  /** Of the half-full cell in the cold, from the figure of voltages, and from the sag without a capacitor. */
  async function sourceAt(burst: (number | null)[][]) {
    const cold = (await numbersOf('Voltage as it empties')).filter(([at_C]) => at_C !== 20)
    const above = cold.findLast(([, charged]) => charged! >= 50)!
    const below = cold.find(([, charged]) => charged! < 50)!
    const part = (above[1]! - 50) / (above[1]! - below[1]!)
    const open_V = above[2]! + part * (below[2]! - above[2]!)
    return { open_V, ohms: (open_V - burst[0][2]!) / (11e-3 + 0.3e-6) }
  }
})
