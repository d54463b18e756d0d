/** Panel and charger beside the curves they imply, and the page as a whole, in a real browser. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { axeFindings } from './workbench.ts'
import { handsOn } from './workbench-keyboard.ts'
import { onFiles } from './workbench-on-files.ts'

const HUT = 'fjord-tide-hut.outpost.yaml'
const PATH = 'footpath-counter.outpost.yaml'
const DOOR = 'cold-store-door.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'

const on = onFiles([HUT, PATH, DOOR, FORD], {
  address: '/supply?file=',
  ready: (page) => page.getByRole('figure', { name: 'Voltage as it empties', exact: true }),
})

describe('the panel', () => {
  test('goes through the numbers of its data sheet, and is held where a linear charger holds it', async () => {
    await on.open()
    const rows = await on.numbersOf('The panel, and where it is held')
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
    await on.open()
    const panel = on.page.locator('section', { has: on.page.locator('#panel') })
    expect(await panel.locator('.care').textContent()).toMatch(
      /at −8 °C, this panel gives 7\.\d+ V, not the 6\.9 V/,
    )
    await on.field('supply.charger.highest input').fill('7 V')
    const problem = on.page
      .locator('.field', { has: on.field('supply.charger.highest input') })
      .locator('.problem.error')
    await problem.waitFor()
    expect(await problem.textContent()).toMatch(/open panel gives 7\.\d+ V, and the charger bears 7 V/)
  })

  test('is stated by its rating instead, and by its sheet again, with what was known', async () => {
    await on.open()
    const known = on.page.getByLabel('Known by')
    await known.selectOption('rated')
    await on.untilOnDisk((text) => parse(text).supply.panel.rated === '126 mW at 5.6 V')
    expect(Object.keys(parse(on.onDisk(HUT)).supply.panel)).toEqual(['rated'])
    await on.undo()
    await on.untilOnDisk((text) => text === on.originals[HUT])
    await known.selectOption('none')
    await on.untilOnDisk((text) => parse(text).supply.panel === undefined)
    await on.page.getByText('The charger has no panel to charge from', { exact: false }).first().waitFor()
  })
})

describe('the charger', () => {
  test('may charge where its window lies, month by month (by hand)', async () => {
    await on.open()
    const rows = await on
      .figure('When it may be charged')
      .locator('.figure-foot tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent ?? '')))
    expect(rows).toHaveLength(12)
    // January: 1.2 °C on average, 4 K between night and day.
    expect(rows[0].slice(0, 3)).toEqual(['January', '-0.8', '3.2'])
    expect(await on.figure('When it may be charged').locator('figcaption').textContent()).toMatch(
      /Mean nights are below 1 °C in Jan, Feb, Mar, Dec/,
    )
    await on.field('supply.charger.cold lock-out').fill('none')
    await on.page
      .locator('.problem.warning', { hasText: /plates metal/ })
      .first()
      .waitFor()
  })

  test('of another kind drops what that kind does not know', async () => {
    await on.open()
    await on.page.getByLabel('From panel to battery').selectOption('maximum-power')
    await on.untilOnDisk((text) => parse(text).supply.charger.kind === 'maximum-power')
    expect(Object.keys(parse(on.onDisk(HUT)).supply.charger)).toEqual([
      'kind',
      'limit',
      'quiescent',
      'cold lock-out',
      'highest input',
    ])
    await on.undo()
    await on.untilOnDisk((text) => text === on.originals[HUT])
  })

  test('has no place on a primary cell, which is said beside it', async () => {
    await on.open(DOOR)
    const part = on.page.locator('section', { has: on.page.locator('#charger') })
    expect(await part.textContent()).toMatch(/A primary cell must never be charged/)
    await on.page.getByLabel('From panel to battery').selectOption('diode')
    await part.locator('.problem.error', { hasText: /leak, vent or burst/ }).waitFor()
  })
})

describe('taken away', () => {
  test('each figure is a drawing that stands alone, and numbers with their units in the head', async () => {
    await on.open()
    const titles = await on.page.locator('figure h2').allTextContents()
    expect(titles).toHaveLength(6)
    for (const title of titles) {
      const saved = async (button: string) => {
        const [download] = await Promise.all([
          on.page.waitForEvent('download'),
          on.figure(title).getByRole('button', { name: button }).click(),
        ])
        return readFileSync(await download.path(), 'utf8')
      }
      // A browser lets through ten downloads in a burst of a second, and drops the rest without a word.
      await on.page.waitForTimeout(250)
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
    await on.open(FORD)
    const hands = await handsOn(on.page)
    await hands.fill('In series', '3')
    await on.untilOnDisk((text) => parse(text).supply.cell.series === 3, FORD)
    await hands.tabTo('Voltage by charge, read out')
    await hands.keys('Home')
    expect((await hands.focus()).valueText).toMatch(/^100\u00a0% left: at 20 °C 4\.\d+ V/)
    await hands.tabTo('Between battery and device')
    await hands.keys('ArrowDown')
    await on.untilOnDisk((text) => parse(text).supply.regulator.kind === 'buck', FORD)
    await hands.tabTo('The device stops below')
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  test.each([1280, 360])(
    'at %i px nothing is found by axe, and the page does not scroll sideways',
    async (width) => {
      await on.open(HUT, { colorScheme, viewport: { width, height: 900 } })
      for (const summary of await on.page.locator('.figure-foot summary').all()) await summary.click()
      expect(await axeFindings(on.page)).toEqual([])
      expect(await on.page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    },
  )
})
