/** When it wakes, where a day's charge goes, what is drawn and kept between wakes; and the page as a whole. */
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { axeFindings } from './workbench.ts'
import { handsOn } from './workbench-keyboard.ts'
import { onFiles } from './workbench-on-files.ts'

const FILE = 'fjord-tide-hut.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'
const DOOR = 'cold-store-door.outpost.yaml'

const on = onFiles([FILE, FORD, DOOR], {
  address: '/wake?file=',
  ready: (page) => page.getByRole('heading', { name: 'Where a day' }),
})
const stepsOf = (text: string): Record<string, string>[] => parse(text).wake.steps

describe('the cadence', () => {
  test('of another kind is written anew with what can be kept of it, and undone at once', async () => {
    await on.open()
    const kind = on.page.getByLabel('The next wake comes by')
    await kind.selectOption('clock minutes')
    await on.untilOnDisk((text) => /cadence:\n {2}clock minutes: 15\n {2}thrift:/.test(text))
    await kind.selectOption('times of day')
    await on.untilOnDisk((text) => text.includes('times of day'))
    // A thrift table has no interval to replace now: said, not silently removed.
    await on.page
      .getByText(/a thrift table replaces an interval/i)
      .first()
      .waitFor()
    await on.page.getByRole('button', { name: 'Take the thrift table away' }).click()
    await on.untilOnDisk((text) => !text.includes('thrift'))
    for (let i = 0; i < 3; i++) await on.undo()
    await on.untilOnDisk((text) => text === on.originals[FILE])
  })

  test('by random events alone loses its schedule', async () => {
    await on.open(FORD)
    await on.page.getByLabel('The next wake comes by').selectOption('events')
    await on.untilOnDisk((text) => Object.keys(parse(text).cadence).join() === 'events', FORD)
    await on.field('cadence.events.per day').fill('60 ± 20')
    await on.untilOnDisk((text) => parse(text).cadence.events['per day'] === '60 ± 20', FORD)
  })
})

describe('the charge of a day', () => {
  test('adds up to what a day takes, largest part first, and tells the days of it in the cell', async () => {
    await on.open()
    // At one moment: the full reckoning takes the place of the quick one, and its budget is of other draws.
    const { parts, facts } = await on.page.locator('.charge-part').evaluate((part) => ({
      parts: [...part.querySelectorAll('.figure-foot tbody tr')].map((row) =>
        Number(row.children[2].textContent),
      ),
      facts: [...part.querySelectorAll('.facts dd')].map((each) => each.textContent ?? ''),
    }))
    expect(parts).toEqual(parts.toSorted((a, b) => b - a))
    const total_mAh = parts.reduce((sum, each) => sum + each, 0)
    expect(Number.parseFloat(facts[2])).toBeCloseTo(total_mAh, 1)
    expect(Number.parseFloat(facts[4]) / (600 / total_mAh)).toBeCloseTo(1, 2)
  })
})

describe('drains, rest and memory', () => {
  test('are typed like the steps', async () => {
    await on.open()
    await on.field('rest').fill('38 µA ± 5 µA')
    await on.untilOnDisk((text) => parse(text).rest.is === '38 µA ± 5 µA')
    await on.field('standing[0].from').selectOption('rail')
    await on.untilOnDisk((text) => parse(text).standing[0].from === 'rail')
    await on.page.getByRole('button', { name: 'Add a thing kept' }).click()
    await on.untilOnDisk((text) => parse(text).keeps.length === 2)
    await on.field('resume').selectOption('restart')
    // What was kept in RAM is lost by a restart, which is told at its row.
    await on.page
      .locator('.row-problems', { hasText: /restart/ })
      .first()
      .waitFor()
  })
})

describe('without a mouse', () => {
  test('the wave is read and changed, a step added, moved and taken away', async () => {
    await on.open()
    const hands = await handsOn(on.page)
    await hands.tabTo('Parts of the wake, read out')
    await hands.keys('ArrowRight', 'ArrowRight')
    expect((await hands.focus()).valueText).toMatch(/^read tide: /)
    await hands.tabTo('End of warm up sensors')
    await hands.keys('ArrowUp')
    await on.untilOnDisk((text) => stepsOf(text)[0].for === '1.25 s ± 0.1 s')
    await hands.tabTo('read tide: for')
    await hands.keys('Alt+Enter')
    await on.untilOnDisk((text) => stepsOf(text)[2].name === 'new step')
    await expect.poll(async () => (await hands.focus()).name).toBe('step 3: step')
    await hands.keys('Alt+ArrowDown')
    await on.untilOnDisk((text) => stepsOf(text)[3].name === 'new step')
    await expect.poll(async () => (await hands.focus()).name).toBe('step 4: step')
    await hands.keys('ArrowUp')
    await expect.poll(async () => (await hands.focus()).name).toBe('step 3: step')
    await hands.keys('ArrowDown', 'Alt+Delete')
    await on.untilOnDisk((text) => stepsOf(text).length === 4)
    await hands.keys('Control+z', 'Control+z', 'Control+z', 'Control+z')
    await on.untilOnDisk((text) => text === on.originals[FILE])
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  test.each([1280, 360])(
    'at %i px nothing is found by axe, and the page does not scroll sideways',
    async (width) => {
      await on.open(FORD, { colorScheme, viewport: { width, height: 900 } })
      await on.page.getByRole('button', { name: 'more of send batch' }).click()
      for (const summary of await on.page.locator('.figure-foot summary').all()) await summary.click()
      expect(await axeFindings(on.page)).toEqual([])
      expect(await on.page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    },
  )
})
