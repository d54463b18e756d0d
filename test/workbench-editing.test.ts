/** Forms and text as one truth, kept on the disk, in a real browser. */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'

const FILE = 'fjord-tide-hut.outpost.yaml'

let bench: Workbench
let page: Page
const original = readFileSync(join('examples', FILE), 'utf8')
beforeAll(async () => {
  bench = await openWorkbench({ examples: [FILE, 'river-ford.outpost.yaml'] })
})
afterEach(async () => {
  await page.close()
  writeFileSync(join(bench.folder, FILE), original)
})
afterAll(async () => {
  await bench.close()
  expect([...bench.strangers]).toEqual([])
  expect(bench.complaints).toEqual([])
})

const onDisk = () => readFileSync(join(bench.folder, FILE), 'utf8')
const field = (path: string) => page.locator(`[data-path="${path}"]`)
const untilSaved = () => page.locator('.saving.saved').waitFor()
const untilOnDisk = (holds: (text: string) => boolean) =>
  expect.poll(() => holds(onDisk()), { timeout: 15_000 }).toBe(true)
const verdict = () => page.locator('.verdict-words[data-current="true"]').textContent()
const editor = () => page.locator('.cm-content')

async function openText(address = `/place?file=${FILE}`) {
  page = await bench.open(address)
  await page.getByRole('button', { name: 'Show the text' }).click()
  await editor().waitFor()
}

/** Comments of a file, in their order. */
const commentsOf = (text: string) =>
  text.split('\n').flatMap((line) => /(?:^|\s)#.*$/.exec(line)?.[0].trim() ?? [])

describe('forms and text', () => {
  test('what is typed in a form stands in the text and on the disk, every comment kept', async () => {
    await openText()
    await field('place.latitude').fill('51.5')
    await expect.poll(() => editor().textContent()).toContain('latitude: 51.5')
    await untilOnDisk((text) => text.includes('latitude: 51.5'))
    expect(commentsOf(onDisk())).toEqual(commentsOf(original))
    const changed = onDisk()
      .split('\n')
      .filter((line, i) => line !== original.split('\n')[i])
    expect(changed).toHaveLength(1)
  })

  test('what is typed in the text stands in the forms', async () => {
    await openText()
    await field('place.longitude').focus() // the text shows the line of the field
    const line = page.locator('.cm-line', { hasText: /^\s*longitude:/ })
    await line.click()
    await page.keyboard.press('End')
    await page.keyboard.press('Shift+Home')
    await page.keyboard.type('longitude: 12.5') // Home leads behind the indent
    await expect.poll(() => field('place.longitude').inputValue()).toBe('12.5')
  })

  test('a wrong value is told at its field and at its line, and the verdict says what to do', async () => {
    await openText()
    await field('place.latitude').fill('151')
    const wrong = page.locator('.field', { has: field('place.latitude') }).locator('.problem.error')
    await wrong.waitFor()
    expect(await field('place.latitude').getAttribute('aria-invalid')).toBe('true')
    expect(await page.locator('.verdict-basis').textContent()).toMatch(/must be mended first: line \d+/)
    await page.locator('.cm-lintRange-error').first().waitFor()
    await page.getByRole('list', { name: 'What is wrong in the file' }).getByRole('button').first().click()
    expect(await editor().evaluate((element) => element.contains(document.activeElement))).toBe(true)
  })

  test('a decimal comma is explained, and u stands for µ', async () => {
    page = await bench.open(`/place?file=${FILE}`)
    await field('place.latitude').fill('51,5')
    await expect
      .poll(() => page.locator('.problem.error').first().textContent())
      .toMatch(/decimal point|comma/i)
    await field('place.latitude').fill('51.5')
    await page.locator('.verdict-words[data-current="true"]').waitFor()
  })

  test('the verdict follows what is typed', async () => {
    page = await bench.open(`/place?file=${FILE}`)
    const before = await verdict()
    await page.getByRole('link', { name: 'Wake' }).click()
    await field('rest').waitFor()
    await field('rest').fill('2 mA')
    await expect.poll(verdict, { timeout: 15_000 }).not.toBe(before)
  })

  test('undo and redo, by keys and by buttons, wherever the focus is', async () => {
    await openText()
    await field('place.latitude').fill('51.5')
    await untilOnDisk((text) => text.includes('latitude: 51.5'))
    await page.keyboard.press('Control+z')
    await untilOnDisk((text) => text === original)
    await page.getByRole('button', { name: 'Redo' }).click()
    await untilOnDisk((text) => text.includes('latitude: 51.5'))
    await editor().click()
    await page.keyboard.press('Control+z')
    await untilOnDisk((text) => text === original)
    await page.keyboard.press('Control+y')
    await untilOnDisk((text) => text.includes('latitude: 51.5'))
  })

  test('Tab leads out of the text', async () => {
    await openText()
    await editor().click()
    await page.keyboard.press('Tab')
    expect(await editor().evaluate((element) => element.contains(document.activeElement))).toBe(false)
  })
})

describe('the disk', () => {
  test('a change by others is taken where nothing was typed', async () => {
    await openText()
    writeFileSync(join(bench.folder, FILE), original.replace(/latitude: .*/, 'latitude: 44.4'))
    await expect.poll(() => field('place.latitude').inputValue(), { timeout: 15_000 }).toBe('44.4')
    expect(await page.locator('.problem.note').textContent()).toContain('changed on the disk')
  })

  test('changes of the same line are offered, and neither is lost', async () => {
    await openText()
    await page.route('**/api/text', (route) =>
      route.request().method() === 'PUT' ? route.abort() : route.continue(),
    )
    await field('place.latitude').fill('51.5')
    await page.locator('.saving.refused').waitFor()
    writeFileSync(join(bench.folder, FILE), original.replace(/latitude: .*/, 'latitude: 44.4'))
    const keep = page.getByRole('button', { name: 'Keep what stands here' })
    await keep.waitFor()
    expect(onDisk()).toContain('latitude: 44.4')
    await page.unroute('**/api/text')
    await page.getByRole('button', { name: 'Take what is on the disk' }).click()
    await expect.poll(() => field('place.latitude').inputValue()).toBe('44.4')
    await page.getByRole('button', { name: 'Undo' }).click()
    await untilOnDisk((text) => text.includes('latitude: 51.5'))
  })

  test('a file that is gone is told, and what was typed stays', async () => {
    await openText()
    await field('place.latitude').fill('51.5')
    await untilSaved()
    rmSync(join(bench.folder, FILE))
    await expect
      .poll(() => page.locator('.notices').textContent(), { timeout: 15_000 })
      .toContain('is gone from the folder')
    expect(await field('place.latitude').inputValue()).toBe('51.5')
  })

  test('what is typed while the server is away is saved when it is back', async () => {
    await openText()
    await bench.stopServer()
    await field('place.latitude').fill('51.5')
    await expect
      .poll(() => page.locator('.notices').textContent(), { timeout: 15_000 })
      .toContain('does not answer')
    await bench.startServer()
    await untilOnDisk((text) => text.includes('latitude: 51.5'))
    await untilSaved()
  }, 90_000)
})

describe('the first page', () => {
  test('a sentence becomes a file that is open at once, and its name is never one that is taken', async () => {
    page = await bench.open('/')
    await page.locator('.lasts[data-current="true"]').waitFor()
    await page.getByLabel('Call it').fill('River ford')
    expect(await page.locator('.make-it code').textContent()).toBe('river-ford-2.outpost.yaml')
    await page
      .getByRole('combobox', { name: 'Wakes every' })
      .or(page.getByRole('textbox', { name: 'Wakes every' }))
      .fill('1 h')
    await page.locator('.lasts[data-current="true"]').waitFor()
    await page.getByRole('button', { name: 'Make it an outpost' }).click()
    await page.waitForURL('**/wake?file=river-ford-2.outpost.yaml')
    const made = readFileSync(join(bench.folder, 'river-ford-2.outpost.yaml'), 'utf8')
    expect(made).toContain('title: River ford')
    expect(made).toContain('rate: 1 h')
    rmSync(join(bench.folder, 'river-ford-2.outpost.yaml'))
  })

  test('its address leads others to the same sentence; a blank that will not do is explained', async () => {
    page = await bench.open('/start?every=2+h&rests=700uA')
    await page.locator('.lasts[data-current="true"]').waitFor()
    expect(await page.getByLabel('Draws at rest').inputValue()).toBe('700uA')
    await page.getByLabel('Draws at rest').fill('0,7 mA')
    await expect.poll(() => page.locator('#blank-problems').textContent()).toMatch(/comma|decimal point/i)
    expect(existsSync(join(bench.folder, 'new.outpost.yaml'))).toBe(false)
  })

  test('with an ideal cell common practice comes out: 500 mAh last 20 h at 25 mA', async () => {
    // A wake that never ends, of an ideal cell: 500 mAh over 25 mA are 20 h (common practice; plain division).
    page = await bench.open('/start?cell=ideal+500+mAh&every=1+min&for=1+min&draws=25+mA&rests=25+mA')
    await page.locator('.lasts[data-current="true"]').waitFor()
    expect(await page.locator('.lasts').textContent()).toContain('about 1 day')
  })
})

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  test.each([
    '/',
    `/place?file=${FILE}`,
    `/outlook?file=${FILE}`,
    '/choices?file=fjord-tide-hut.outpost.yaml',
  ])(
    'axe finds nothing on %s, at 1280 and at 360 pixels, and nothing is wider than the page',
    async (address) => {
      page = await bench.open(address, { colorScheme })
      await page.locator(address === '/' ? '.lasts' : '.verdict-words[data-current="true"]').waitFor()
      if (address.startsWith('/place')) {
        await page.getByRole('button', { name: 'Show the text' }).click()
        await editor().waitFor()
      }
      expect(await axeFindings(page)).toEqual([])
      await page.setViewportSize({ width: 360, height: 740 })
      expect(await axeFindings(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
    },
  )
})
