/** A wake as a wave and as a table, changed by typing, by mouse, by touch and by keys, in a real browser. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'
import { handsOn } from './workbench-keyboard.ts'

const FILE = 'fjord-tide-hut.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'
const originals = Object.fromEntries(
  [FILE, FORD].map((name) => [name, readFileSync(join('examples', name), 'utf8')]),
)

let bench: Workbench
let page: Page
beforeAll(async () => {
  bench = await openWorkbench({ examples: [FILE, FORD, 'cold-store-door.outpost.yaml'] })
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

const onDisk = (name = FILE) => readFileSync(join(bench.folder, name), 'utf8')
const untilOnDisk = (holds: (text: string) => boolean, name = FILE) =>
  expect.poll(() => holds(onDisk(name)), { timeout: 15_000 }).toBe(true)
const field = (path: string) => page.locator(`[data-path="${path}"]`)
const edge = (name: string) => page.getByRole('slider', { name: `End of ${name}`, exact: true })
const undo = () => page.getByRole('button', { name: 'Undo', exact: true }).click()
const stepsOf = (text: string): Record<string, string>[] => parse(text).wake.steps
const linesChanged = (text: string, name = FILE) =>
  text.split('\n').filter((line, i) => line !== originals[name].split('\n')[i])
const commentsOf = (text: string) =>
  text.split('\n').flatMap((line) => /(?:^|\s)#.*$/.exec(line)?.[0].trim() ?? [])

async function openWake(name = FILE, options: Parameters<Workbench['open']>[1] = {}) {
  page = await bench.open(`/wake?file=${name}`, options)
  await page.getByRole('heading', { name: 'Where a day' }).waitFor()
}

/** The numbers behind a figure, row by row. */
const numbersOf = (title: string): Promise<string[][]> =>
  page
    .getByRole('figure', { name: title, exact: true })
    .locator('.figure-foot tbody tr')
    .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent ?? '')))

describe('the table of steps', () => {
  test('what is typed in it changes one line of the file, every comment kept', async () => {
    await openWake()
    await field('wake.steps[2].for').fill('7 s [3 s, 20 s]')
    await untilOnDisk((text) => text.includes('for: 7 s [3 s, 20 s]'))
    expect(linesChanged(onDisk())).toEqual(['      for: 7 s [3 s, 20 s]'])
    await field('wake.steps[1].draws').fill('11 mA') // its source stays beside it
    await untilOnDisk((text) => text.includes('{ is: 11 mA, source: "bench log 7, ten wakes averaged" }'))
    expect(commentsOf(onDisk())).toEqual(commentsOf(originals[FILE]))
  })

  test('a wrong unit is told below its row, and the field points there', async () => {
    await openWake()
    await field('wake.steps[1].draws').fill('9 mAh')
    const problem = page.locator('.row-problems .problem.error')
    await problem.waitFor()
    expect(await problem.textContent()).toMatch(/mAh.*charge.*current.*Did you mean "9 mA"/)
    expect(await field('wake.steps[1].draws').getAttribute('aria-invalid')).toBe('true')
    expect(await field('wake.steps[1].draws').getAttribute('aria-describedby')).toBe(
      await problem.getAttribute('id'),
    )
    await field('wake.steps[1].draws').fill('9 mA')
    await problem.waitFor({ state: 'detached' })
  })

  test('steps are added, moved with their comments and taken away, each undone by one press', async () => {
    await openWake()
    await page.getByRole('button', { name: 'Add a step', exact: true }).click()
    await untilOnDisk((text) => stepsOf(text).length === 5)
    expect(stepsOf(onDisk())[4]).toEqual({ name: 'new step', for: '1 s', draws: '10 mA' })
    await undo()
    await untilOnDisk((text) => text === originals[FILE])

    await page.getByRole('button', { name: 'Move join network up' }).click()
    await untilOnDisk((text) => stepsOf(text)[1].name === 'join network')
    expect(onDisk()).toMatch(/name: join network\n\s*# The modem sleeps/)
    await undo()
    await untilOnDisk((text) => text === originals[FILE])

    await page.getByRole('button', { name: 'Take warm up sensors away' }).click()
    await untilOnDisk((text) => stepsOf(text)[0].name === 'read tide')
    await undo()
    await untilOnDisk((text) => text === originals[FILE])
  })

  test('what a step has beyond its columns is behind "more"', async () => {
    await openWake()
    await page.getByRole('button', { name: 'more of send batch' }).click()
    expect(await field('wake.steps[3].retries.probability').inputValue()).toBe('5 %')
    await field('wake.steps[3].retries.times').fill('4')
    await untilOnDisk((text) => /retries: \{ probability: 5 %, times: 4,/.test(text))
    await field('wake.steps[3].note').fill('antenna on the mast')
    await untilOnDisk((text) => stepsOf(text)[3].note === 'antenna on the mast')
  })

  test('boot steps stand first where the device restarts', async () => {
    await openWake(FORD)
    expect(await field('wake.boot[0].name').inputValue()).toBe('boot')
    await edge('boot').focus()
    await page.keyboard.press('ArrowRight')
    // 380 ms by a handy amount: no more than a twentieth, so 10 ms.
    await untilOnDisk((text) => text.includes('for: 390 ms ± 40 ms'), FORD)
  })
})

describe('the wave', () => {
  test('an edge dragged by the mouse writes a rounded duration in the unit of the file', async () => {
    await openWake()
    const box = (await edge('read tide').locator('path').boundingBox())!
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width / 2 + 40, box.y, { steps: 4 })
    await page.mouse.move(box.x + box.width / 2 + 80, box.y, { steps: 4 })
    await page.mouse.up()
    const lasts = Number(await edge('read tide').getAttribute('aria-valuenow'))
    await untilOnDisk((text) => stepsOf(text)[1].for === `${lasts} s`)
    expect(stepsOf(onDisk())[1].for).toMatch(/^\d\.\d{1,2} s$/)
    // Before the drag 11.6 s lay between the begin of the wake and its end, of which 80 px are some 0.9 s.
    expect(lasts).toBeGreaterThan(2.7)
    expect(lasts).toBeLessThan(3.2)
    expect(linesChanged(onDisk())).toHaveLength(1)
  })

  test('an edge dragged by touch moves the same', async () => {
    await openWake(FILE, { viewport: { width: 390, height: 800 }, hasTouch: true })
    await edge('send batch').scrollIntoViewIfNeeded()
    const box = (await edge('send batch').locator('path').boundingBox())!
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    const touch = await page.context().newCDPSession(page)
    const at = (type: 'touchStart' | 'touchMove' | 'touchEnd', dx: number) =>
      touch.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: x + dx, y }],
      })
    await at('touchStart', 0)
    for (const dx of [-4, -8, -12]) await at('touchMove', dx)
    await at('touchEnd', 0)
    await untilOnDisk((text) => !text.includes('for: 2.4 s [1.6 s, 5 s]'))
    expect(Number.parseFloat(stepsOf(onDisk())[3].for)).toBeLessThan(2.3)
  })

  test('arrow keys change a duration by a handy amount, and the ends of its interval in proportion', async () => {
    await openWake()
    await edge('send batch').focus()
    await page.keyboard.press('ArrowRight')
    // A twentieth of 2.4 s is 0.12 s: 0.1 s. The ends: 1.6 s and 5 s times 2.5/2.4, to two digits.
    await untilOnDisk((text) => text.includes('for: 2.5 s [1.7 s, 5.2 s]'))
    expect(await edge('send batch').getAttribute('aria-valuetext')).toBe('send batch lasts 2.5 s')
    await edge('warm up sensors').focus()
    await page.keyboard.press('ArrowLeft')
    await untilOnDisk((text) => text.includes('for: 1.15 s ± 0.1 s')) // the tolerance as it was
    await undo()
    await undo()
    await untilOnDisk((text) => text === originals[FILE])
  })

  test('is read out part by part, in numbers that are checked by hand', async () => {
    await openWake()
    const reading = page.getByRole('slider', { name: 'Parts of the wake, read out' })
    await reading.focus()
    await page.keyboard.press('End')
    // 74 mA for 2.4 s less the 10 ms of the peak: 74 mA × 2.39 s = 176.86 mC. The wake as drawn: 4.2 mA × 1.2 s +
    // 9.5 mA × 2 s + 240 mA × 12 ms + 48 mA × 5.988 s + 280 mA × 10 ms + 176.86 mC = 494.0 mC.
    expect(await reading.getAttribute('aria-valuetext')).toBe(
      'send batch: 74 mA for 2.39 s, 177 mC, 36\u00a0% of this wake; in 50\u00a0% of all wakes.',
    )
    const rows = await numbersOf('One wake')
    expect(rows.map(([name]) => name)).toEqual([
      'warm up sensors',
      'read tide',
      'join network, its peak',
      'join network',
      'send batch, its peak',
      'send batch',
    ])
    expect(Number(rows[5][4])).toBeCloseTo(176.86, 6)
    expect(rows.reduce((sum, row) => sum + Number(row[4]), 0)).toBeCloseTo(494.004, 3)
    for (const [, from, to, current_mA, charge_mC] of rows)
      expect(Number(charge_mC) / ((Number(to) - Number(from)) * Number(current_mA))).toBeCloseTo(1, 3)
  })

  test('of a variant can be looked at, not dragged', async () => {
    page = await bench.open(`/wake?file=${FILE}&variant=half-hourly`)
    await page.getByText('Choose “as written” above to drag its edges.').waitFor()
    expect(await edge('read tide').count()).toBe(0)
  })

  test('shows short steps wider where asked, and keeps that in the address', async () => {
    await openWake('cold-store-door.outpost.yaml')
    const gap = async () =>
      (await edge('read temperature').boundingBox())!.x - (await edge('look at door').boundingBox())!.x
    const before = await gap()
    await page.getByLabel('short steps wider').check()
    expect(page.url()).toContain('parts=evened')
    expect(await gap()).not.toBe(before)
  })

  test('is saved as a drawing that stands alone, and as numbers', async () => {
    await openWake()
    const figure = page.getByRole('figure', { name: 'One wake', exact: true })
    const saved = async (button: string) => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        figure.getByRole('button', { name: button }).click(),
      ])
      return readFileSync(await download.path(), 'utf8')
    }
    const svg = await saved('Save drawing (SVG)')
    expect(svg).toMatch(/^<svg[^>]* xmlns="http:\/\/www.w3.org\/2000\/svg"/)
    expect(svg).toContain('send batch')
    expect(svg).not.toMatch(/var\(--|class=/)
    const csv = await saved('Save numbers (CSV)')
    expect(csv.split('\r\n')[0]).toBe(
      'part,from (s),to (s),current (mA),charge (mC),share of this wake (%),share of all wakes (%)',
    )
  })
})

describe('the cadence', () => {
  test('of another kind is written anew with what can be kept of it, and undone at once', async () => {
    await openWake()
    const kind = page.getByLabel('The next wake comes by')
    await kind.selectOption('clock minutes')
    await untilOnDisk((text) => /cadence:\n {2}clock minutes: 15\n {2}thrift:/.test(text))
    await kind.selectOption('times of day')
    await untilOnDisk((text) => text.includes('times of day'))
    // A thrift table has no interval to replace now: said, not silently removed.
    await page
      .getByText(/a thrift table replaces an interval/i)
      .first()
      .waitFor()
    await page.getByRole('button', { name: 'Take the thrift table away' }).click()
    await untilOnDisk((text) => !text.includes('thrift'))
    for (let i = 0; i < 3; i++) await undo()
    await untilOnDisk((text) => text === originals[FILE])
  })

  test('by random events alone loses its schedule', async () => {
    await openWake(FORD)
    await page.getByLabel('The next wake comes by').selectOption('events')
    await untilOnDisk((text) => Object.keys(parse(text).cadence).join() === 'events', FORD)
    await field('cadence.events.per day').fill('60 ± 20')
    await untilOnDisk((text) => parse(text).cadence.events['per day'] === '60 ± 20', FORD)
  })
})

describe('the charge of a day', () => {
  test('adds up to what a day takes, largest part first, and tells the days of it in the cell', async () => {
    await openWake()
    // At one moment: the full reckoning takes the place of the quick one, and its budget is of other draws.
    const { parts, facts } = await page.locator('.charge-part').evaluate((part) => ({
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
    await openWake()
    await field('rest').fill('38 µA ± 5 µA')
    await untilOnDisk((text) => parse(text).rest.is === '38 µA ± 5 µA')
    await field('standing[0].from').selectOption('rail')
    await untilOnDisk((text) => parse(text).standing[0].from === 'rail')
    await page.getByRole('button', { name: 'Add a thing kept' }).click()
    await untilOnDisk((text) => parse(text).keeps.length === 2)
    await field('resume').selectOption('restart')
    // What was kept in RAM is lost by a restart, which is told at its row.
    await page
      .locator('.row-problems', { hasText: /restart/ })
      .first()
      .waitFor()
  })
})

describe('without a mouse', () => {
  test('the wave is read and changed, a step added, moved and taken away', async () => {
    await openWake()
    const hands = await handsOn(page)
    await hands.tabTo('Parts of the wake, read out')
    await hands.keys('ArrowRight', 'ArrowRight')
    expect((await hands.focus()).valueText).toMatch(/^read tide: /)
    await hands.tabTo('End of warm up sensors')
    await hands.keys('ArrowUp')
    await untilOnDisk((text) => stepsOf(text)[0].for === '1.25 s ± 0.1 s')
    await hands.tabTo('read tide: for')
    await hands.keys('Alt+Enter')
    await untilOnDisk((text) => stepsOf(text)[2].name === 'new step')
    await expect.poll(async () => (await hands.focus()).name).toBe('step 3: step')
    await hands.keys('Alt+ArrowDown')
    await untilOnDisk((text) => stepsOf(text)[3].name === 'new step')
    await expect.poll(async () => (await hands.focus()).name).toBe('step 4: step')
    await hands.keys('ArrowUp')
    await expect.poll(async () => (await hands.focus()).name).toBe('step 3: step')
    await hands.keys('ArrowDown', 'Alt+Delete')
    await untilOnDisk((text) => stepsOf(text).length === 4)
    await hands.keys('Control+z', 'Control+z', 'Control+z', 'Control+z')
    await untilOnDisk((text) => text === originals[FILE])
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  test.each([1280, 360])(
    'at %i px nothing is found by axe, and the page does not scroll sideways',
    async (width) => {
      await openWake(FORD, { colorScheme, viewport: { width, height: 900 } })
      await page.getByRole('button', { name: 'more of send batch' }).click()
      for (const summary of await page.locator('.figure-foot summary').all()) await summary.click()
      expect(await axeFindings(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    },
  )
})
