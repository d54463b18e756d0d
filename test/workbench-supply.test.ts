/** Each part of the supply beside the curve it implies, in a real browser; the numbers of the curves checked by hand. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'
import { handsOn } from './workbench-keyboard.ts'

const HUT = 'fjord-tide-hut.outpost.yaml'
const PATH = 'footpath-counter.outpost.yaml'
const DOOR = 'cold-store-door.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'
const originals = Object.fromEntries(
  [HUT, PATH, DOOR, FORD].map((name) => [name, readFileSync(join('examples', name), 'utf8')]),
)

let bench: Workbench
let page: Page
beforeAll(async () => {
  bench = await openWorkbench({ examples: [HUT, PATH, DOOR, FORD] })
})
afterEach(async () => {
  await page.close()
  for (const [name, text] of Object.entries(originals)) writeFileSync(join(bench.folder, name), text)
})
afterAll(async () => {
  await bench.close()
  expect([...bench.strangers]).toEqual([])
  expect(bench.complaints).toEqual([])
})

const onDisk = (name: string) => readFileSync(join(bench.folder, name), 'utf8')
const untilOnDisk = (holds: (text: string) => boolean, name = HUT) =>
  expect.poll(() => holds(onDisk(name)), { timeout: 15_000 }).toBe(true)
const field = (path: string) => page.locator(`[data-path="${path}"]`)
const figure = (title: string) => page.getByRole('figure', { name: title, exact: true })
const undo = () => page.getByRole('button', { name: 'Undo', exact: true }).click()
const commentsOf = (text: string) =>
  text.split('\n').flatMap((line) => /(?:^|\s)#.*$/.exec(line)?.[0].trim() ?? [])

async function openSupply(name = HUT, options: Parameters<Workbench['open']>[1] = {}) {
  page = await bench.open(`/supply?file=${name}`, options)
  await figure('Voltage as it empties').waitFor()
}

/** The numbers behind a figure, row by row; null where a cell is empty. */
const numbersOf = async (title: string): Promise<(number | null)[][]> => {
  const texts = await figure(title)
    .locator('.figure-foot tbody tr')
    .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent ?? '')))
  return texts.map((row) => row.map((text) => (text === '' ? null : Number(text))))
}

describe('the cell', () => {
  test('another capacity changes the file, the curves, the verdict; comments stay', async () => {
    await openSupply()
    const verdict = () => page.locator('.verdict-words[data-current="true"]').textContent()
    const before = { verdict: await verdict(), sag: await numbersOf('Voltage as it empties') }
    await field('supply.cell.capacity').fill('150 mAh')
    await untilOnDisk((text) => text.includes('capacity: 150 mAh,'))
    expect(commentsOf(onDisk(HUT))).toEqual(commentsOf(originals[HUT]))
    await expect.poll(verdict, { timeout: 15_000 }).not.toBe(before.verdict)
    const after = await numbersOf('Voltage as it empties')
    // A cell sized by capacity has resistance in inverse proportion: four times as much.
    for (const [i, row] of after.entries()) expect(row[3]! / before.sag[i][3]!).toBeCloseTo(4, 3)
  })

  test('with neither regulator nor capacitor sags by current times resistance, and no more', async () => {
    await openSupply(PATH)
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
    const reading = page.getByRole('slider', { name: 'Voltage by charge, read out' })
    await reading.focus()
    for (let i = 0; i <= 50; i++) await page.keyboard.press('ArrowRight')
    expect(await reading.getAttribute('aria-valuetext')).toContain(
      `50\u00a0% left: at 20 °C ${Number(half[2]!.toPrecision(3))} V, sags by ${Math.round(1000 * (half[2]! - half[4]!))} mV`,
    )
  })

  test('that nobody knows is told at the field, with the nearest that is known', async () => {
    await openSupply(DOOR)
    await field('supply.cell.type').fill('CR2451')
    const problem = page.locator('.field', { has: field('supply.cell.type') }).locator('.problem.error')
    await problem.waitFor()
    expect(await problem.textContent()).toContain('Did you mean "CR2450"?')
    await field('supply.cell.type').fill('LR6')
    await problem.waitFor({ state: 'detached' })
    await untilOnDisk((text) => parse(text).supply.cell === 'LR6', DOOR)
    await field('supply.cell.series').fill('2') // the short form makes room for it
    await untilOnDisk((text) => JSON.stringify(parse(text).supply.cell) === '{"type":"LR6","series":2}', DOOR)
  })

  test('delivers nearly all of itself slowly, less fast, less in the cold', async () => {
    await openSupply(DOOR)
    const rows = await numbersOf('What it delivers, by rate and cold')
    const [first] = rows
    expect(first[1]! / 600).toBeGreaterThan(0.97)
    for (const [i, [, mild, cold]] of rows.entries()) {
      expect(cold!).toBeLessThanOrEqual(mild!)
      if (i > 0) expect(mild!).toBeLessThanOrEqual(rows[i - 1][1]! + 1e-9)
    }
  })

  test('has its cautions beside it: coin cells and children, and who knows better', async () => {
    await openSupply(DOOR)
    const care = page
      .locator('section', { has: page.locator('#cell') })
      .locator('.care')
      .first()
    expect(await care.textContent()).toMatch(/children.*data sheet, local codes and licensed practice/)
  })
})

describe('the regulator', () => {
  test('of another kind keeps what that kind knows, is sound, and is undone at once', async () => {
    await openSupply()
    const kind = page.getByLabel('Between battery and device')
    await kind.selectOption('linear')
    await untilOnDisk((text) => parse(text).supply.regulator.kind === 'linear')
    expect(Object.keys(parse(onDisk(HUT)).supply.regulator)).toEqual(['kind', 'output', 'quiescent'])
    await kind.selectOption('')
    await untilOnDisk((text) => parse(text).supply.regulator === 'none')
    await kind.selectOption('boost')
    await untilOnDisk((text) => parse(text).supply.regulator.minimum === '0.9 V')
    for (let i = 0; i < 3; i++) await undo()
    await untilOnDisk((text) => text === originals[HUT])
  })

  test('at a stated current passes what the file says, but for its own needs (by hand)', async () => {
    await openSupply()
    const rows = await numbersOf('What reaches the rail')
    // Half full it rests at 3.83 V. P = I·3.3 V / efficiency goes in, and 8 µA of quiescent current at 3.83 V beside it.
    for (const [rail_A, converter, whole] of rows) {
      const in_W = (rail_A! * 3.3) / (converter! / 100) + 8e-6 * 3.83
      expect(whole! / 100 / ((rail_A! * 3.3) / in_W)).toBeCloseTo(1, 4)
    }
  })

  test('a point of its curve is given another current, and the rest of the file stays', async () => {
    await openSupply()
    const key = page.getByLabel('Output current 200 µA')
    await key.fill('0.5 mA')
    await key.press('Enter')
    await untilOnDisk((text) => text.includes('{ 20 µA: 62 %, 0.5 mA: 80 %, 10 mA: 90 %, 300 mA: 86 % }'))
    await page.getByRole('button', { name: 'Take 300 mA away' }).click()
    await untilOnDisk((text) => text.includes('{ 20 µA: 62 %, 0.5 mA: 80 %, 10 mA: 90 % }'))
    await field('supply.regulator.efficiency.10 mA').fill('105 %')
    await page.locator('.efficiency .problem.error').first().waitFor()
  })
})

describe('the capacitor', () => {
  test('takes off the sag what R, ESR and C say (by hand), and is taken away and put back', async () => {
    await openSupply(DOOR)
    const rows = await numbersOf('Through the worst burst')
    const [first] = rows
    const last = rows.at(-1)!
    // 11 mA after the 0.35 mA of the step before, through R, with 47 µF behind 0.55 Ω across it. R follows from the line
    // without the capacitor. Kirchhoff: the step that ESR leaves at once, then an exponential.
    const { open_V, ohms } = await sourceAt(rows)
    const [base_A, peak_A, C_F, ESR_Ohm, peak_s] = [0.35e-3 + 0.3e-6, 11e-3 + 0.3e-6, 47e-6, 0.55, 3e-3]
    const leak_V = ohms * 0.5e-6
    const settled_V = open_V - leak_V - ohms * base_A
    const gone = 1 - Math.exp(-peak_s / ((ohms + ESR_Ohm) * C_F))
    const parallel = (ohms * ESR_Ohm) / (ohms + ESR_Ohm)
    const step_A = peak_A - base_A
    expect(first[1]!).toBeCloseTo(settled_V - step_A * parallel, 4)
    expect(last[1]!).toBeCloseTo(settled_V - step_A * (parallel + (ohms - parallel) * gone), 4)
    await page.getByRole('button', { name: 'Take the capacitor away' }).click()
    await untilOnDisk((text) => parse(text).supply.capacitor === undefined, DOOR)
    await page.getByRole('button', { name: 'Add a capacitor' }).click()
    await untilOnDisk((text) => parse(text).supply.capacitor.ESR === '0.1 Ω', DOOR)
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

describe('the panel', () => {
  test('goes through the numbers of its data sheet, and is held where a linear charger holds it', async () => {
    await openSupply()
    const rows = await figure('The panel, and where it is held')
      .locator('.figure-foot tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent ?? '')))
    const of = (point: string) => rows.find(([light, , name]) => light === '1000' && name === point)!
    expect(Number(of('open circuit')[3])).toBeCloseTo(6.9, 4)
    expect(Number(of('short circuit')[4])).toBeCloseTo(0.025, 6)
    expect(Number(of('best')[3])).toBeCloseTo(5.6, 2)
    expect(Number(of('best')[5])).toBeCloseTo(5.6 * 0.0225, 5)
    for (const battery of ['nearly empty', 'half full', 'nearly full']) {
      const held = of(`held, battery ${battery}`)
      // The drop-out is 120..250 mV: 185 mV at its best value, between the battery and the panel.
      expect(Number(held[3]) - Number(held[6])).toBeCloseTo(0.185, 4)
      expect(Number(held[7])).toBeCloseTo(Number(held[4]), 6)
    }
  })

  test('open in the cold gives more than its sheet says, and the charger is asked for it', async () => {
    await openSupply()
    const panel = page.locator('section', { has: page.locator('#panel') })
    expect(await panel.locator('.care').textContent()).toMatch(
      /at −8 °C, this panel gives 7\.\d+ V, not the 6\.9 V/,
    )
    await field('supply.charger.highest input').fill('7 V')
    const problem = page
      .locator('.field', { has: field('supply.charger.highest input') })
      .locator('.problem.error')
    await problem.waitFor()
    expect(await problem.textContent()).toMatch(/open panel gives 7\.\d+ V, and the charger bears 7 V/)
  })

  test('is stated by its rating instead, and by its sheet again, with what was known', async () => {
    await openSupply()
    const known = page.getByLabel('Known by')
    await known.selectOption('rated')
    await untilOnDisk((text) => parse(text).supply.panel.rated === '126 mW at 5.6 V')
    expect(Object.keys(parse(onDisk(HUT)).supply.panel)).toEqual(['rated'])
    await undo()
    await untilOnDisk((text) => text === originals[HUT])
    await known.selectOption('none')
    await untilOnDisk((text) => parse(text).supply.panel === undefined)
    await page.getByText('The charger has no panel to charge from', { exact: false }).first().waitFor()
  })
})

describe('the charger', () => {
  test('may charge where its window lies, month by month (by hand)', async () => {
    await openSupply()
    const rows = await figure('When it may be charged')
      .locator('.figure-foot tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent ?? '')))
    expect(rows).toHaveLength(12)
    // January: 1.2 °C on average, 4 K between night and day.
    expect(rows[0].slice(0, 3)).toEqual(['January', '-0.8', '3.2'])
    expect(await figure('When it may be charged').locator('figcaption').textContent()).toMatch(
      /Mean nights are below 1 °C in Jan, Feb, Mar, Dec/,
    )
    await field('supply.charger.cold lock-out').fill('none')
    await page
      .locator('.problem.warning', { hasText: /plates metal/ })
      .first()
      .waitFor()
  })

  test('of another kind drops what that kind does not know', async () => {
    await openSupply()
    await page.getByLabel('From panel to battery').selectOption('maximum-power')
    await untilOnDisk((text) => parse(text).supply.charger.kind === 'maximum-power')
    expect(Object.keys(parse(onDisk(HUT)).supply.charger)).toEqual([
      'kind',
      'limit',
      'quiescent',
      'cold lock-out',
      'highest input',
    ])
    await undo()
    await untilOnDisk((text) => text === originals[HUT])
  })

  test('has no place on a primary cell, which is said beside it', async () => {
    await openSupply(DOOR)
    const part = page.locator('section', { has: page.locator('#charger') })
    expect(await part.textContent()).toMatch(/A primary cell must never be charged/)
    await page.getByLabel('From panel to battery').selectOption('diode')
    await part.locator('.problem.error', { hasText: /leak, vent or burst/ }).waitFor()
  })
})

describe('taken away', () => {
  test('each figure is a drawing that stands alone, and numbers with their units in the head', async () => {
    await openSupply()
    const titles = await page.locator('figure h2').allTextContents()
    expect(titles).toHaveLength(6)
    for (const title of titles) {
      const saved = async (button: string) => {
        const [download] = await Promise.all([
          page.waitForEvent('download'),
          figure(title).getByRole('button', { name: button }).click(),
        ])
        return readFileSync(await download.path(), 'utf8')
      }
      // A browser lets through ten downloads in a burst of a second, and drops the rest without a word.
      await page.waitForTimeout(250)
      expect(await saved('Save drawing (SVG)')).not.toMatch(/var\(--|class=/)
      const [head, ...rows] = (await saved('Save numbers (CSV)')).trimEnd().split('\r\n')
      expect(head).toMatch(/\(.+\)/)
      expect(rows.length).toBeGreaterThan(10)
      expect(rows.join()).not.toMatch(/NaN|Infinity|undefined/)
    }
  })
})

describe('without a mouse', () => {
  test('a value is typed, a kind chosen, a curve read', async () => {
    await openSupply(FORD)
    const hands = await handsOn(page)
    await hands.fill('In series', '3')
    await untilOnDisk((text) => parse(text).supply.cell.series === 3, FORD)
    await hands.tabTo('Voltage by charge, read out')
    await hands.keys('Home')
    expect((await hands.focus()).valueText).toMatch(/^100\u00a0% left: at 20 °C 4\.\d+ V/)
    await hands.tabTo('Between battery and device')
    await hands.keys('ArrowDown')
    await untilOnDisk((text) => parse(text).supply.regulator.kind === 'buck', FORD)
    await hands.tabTo('The device stops below')
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  test.each([1280, 360])(
    'at %i px nothing is found by axe, and the page does not scroll sideways',
    async (width) => {
      await openSupply(HUT, { colorScheme, viewport: { width, height: 900 } })
      for (const summary of await page.locator('.figure-foot summary').all()) await summary.click()
      expect(await axeFindings(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    },
  )
})
