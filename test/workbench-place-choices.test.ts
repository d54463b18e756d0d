/** The skyline drawn by mouse and keys, and the decisions pressed and taken over, in a real browser. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'

const FILE = 'fjord-tide-hut.outpost.yaml'
const original = readFileSync(join('examples', FILE), 'utf8')

let bench: Workbench
let page: Page
beforeAll(async () => {
  bench = await openWorkbench({ examples: [FILE, 'windbreak-sleep.outpost.yaml', 'parts.yaml'] })
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
const untilOnDisk = (holds: (text: string) => boolean) =>
  expect.poll(() => holds(onDisk()), { timeout: 15_000 }).toBe(true)

describe('a reader who writes a decimal comma', () => {
  test('sees it in words and tables; what is saved has a decimal point, as has the file', async () => {
    page = await bench.open(`/place?file=${FILE}`, { locale: 'de-DE' })
    // Until then the numbers may still change.
    await page.locator('[data-from="server"]').waitFor({ timeout: 60_000 })
    const months = page.getByRole('figure', { name: 'Light and air, month by month' })
    await months.getByText('The numbers').click()
    const december = await months.locator('tbody tr').last().locator('td').allTextContents()
    expect(december[0]).toBe('Dezember')
    for (const cell of december.slice(1, 4)) expect(cell).toMatch(/^0,\d+$/)
    expect(await months.locator('figcaption').textContent()).toMatch(/with 0,\d+ kWh/)
    const download = page.waitForEvent('download')
    await months.getByRole('button', { name: 'Save numbers (CSV)' }).click()
    const csv = readFileSync(await (await download).path(), 'utf8')
      .trimEnd()
      .split('\r\n')
    expect(csv.at(-1)).toBe(december.map((cell) => cell.replace(',', '.')).join(','))
    expect(onDisk()).toBe(original)
  })
})

describe('the skyline', () => {
  const point = (name: string) => page.getByRole('slider', { name: `Skyline at ${name}`, exact: true })
  const openPlace = async () => {
    page = await bench.open(`/place?file=${FILE}`)
    await point('S').waitFor()
  }

  test('a point is moved by keys: one entry of the file changes, every comment stays', async () => {
    await openPlace()
    await point('S').focus()
    await page.keyboard.press('ArrowUp')
    await untilOnDisk((text) => text.includes('180: 16'))
    expect(onDisk().replace('180: 16', '180: 15')).toBe(original)
    expect(await point('S').getAttribute('aria-valuetext')).toBe('16° high at 180°')
  })

  test('a point is dragged by mouse, as one step that undo takes back', async () => {
    await openPlace()
    await point('S').scrollIntoViewIfNeeded()
    const box = await point('S').boundingBox()
    if (box === null) throw new Error('the point is not drawn')
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x, y - 30, { steps: 5 })
    await page.mouse.move(x, y - 60, { steps: 5 })
    await page.mouse.up()
    await untilOnDisk((text) => text !== original)
    const height = Number(/180: (\d+)/.exec(onDisk())?.[1])
    expect(height).toBeGreaterThan(20)
    await page.keyboard.press('Control+z')
    await untilOnDisk((text) => text === original)
  })

  test('points are added and removed', async () => {
    await openPlace()
    await page.getByRole('button', { name: 'Add a point to the skyline' }).click()
    await untilOnDisk((text) => /horizon:.*\b195: 10|horizon:.*\b\d+: 10/.test(text))
    await point('N').focus()
    await page.keyboard.press('Delete')
    await untilOnDisk((text) => !/horizon: \{ 0: 6/.test(text))
  })

  test('a higher wall takes hours of sun, and the caption says so', async () => {
    await openPlace()
    const caption = page.getByRole('figure', { name: 'The sun and the skyline' }).locator('figcaption')
    const before = await caption.textContent()
    await point('NW').focus()
    for (let i = 0; i < 6; i++) await page.keyboard.press('PageUp')
    await expect.poll(() => caption.textContent()).not.toBe(before)
  })

  test('another kind of weather rewrites its section alone', async () => {
    await openPlace()
    await page.getByLabel('Known by').selectOption('place')
    await untilOnDisk((text) => /weather:\s*\{?\s*place: London/.test(text))
    expect(onDisk()).toContain('# North to south along the water')
    await page.locator('[data-path="place.weather.place"]').fill('Bergen')
    await untilOnDisk((text) => text.includes('Bergen'))
    await page.locator('.verdict-words[data-current="true"]').waitFor()
  })
})

describe('a variant in the address', () => {
  test('that the file does not have is told, with the way to the file as written', async () => {
    page = await bench.open(`/outlook?file=${FILE}&variant=nonesuch`)
    await page.getByText('The file has no variant “nonesuch”.').waitFor()
    await page.getByText('Nothing can be shown of a variant that is not there.').waitFor()
    expect(await axeFindings(page)).toEqual([])
    await page.locator('main').getByRole('link', { name: 'Look at the file as written' }).click()
    await page.getByRole('figure', { name: 'The year' }).waitFor()
    expect(page.url()).not.toContain('variant')
  })
})

describe('choices', () => {
  test('variants are played side by side, and each leads to its outlook', async () => {
    page = await bench.open('/choices?file=windbreak-sleep.outpost.yaml')
    await page.getByRole('button', { name: 'Play them side by side' }).click()
    await page.getByRole('figure', { name: 'Side by side' }).waitFor({ timeout: 120_000 })
    const link = page.locator('.verdicts').getByRole('link', { name: 'sleep and rejoin' })
    await link.click()
    await page.waitForURL('**/outlook?file=windbreak-sleep.outpost.yaml&variant=sleep+and+rejoin')
    expect(await axeFindings(page)).toEqual([])
  }, 180_000)

  test('sizing can be called off, and asked again; a square of the map is taken over by keys', async () => {
    page = await bench.open(`/choices?file=${FILE}`)
    const press = page.getByRole('button', { name: 'Size it' })
    await press.click()
    await page.getByRole('button', { name: 'Call it off' }).click()
    await press.click()
    const map = page.getByRole('slider', { name: /Map of cells and panels/ })
    await map.waitFor({ timeout: 280_000 })
    await map.focus()
    await page.keyboard.press('End')
    await page.keyboard.press('ArrowUp')
    for (let i = 0; i < 12; i++) await page.keyboard.press('ArrowUp')
    expect(await map.getAttribute('aria-valuetext')).toMatch(/^A cell of .* with a panel of .*survives/)
    await page.keyboard.press('Enter')
    await untilOnDisk((text) => text !== original)
    expect(onDisk()).toMatch(/capacity: \d+ mAh ± 6 %/)
    expect(onDisk()).toContain("# A hand's breadth of crystalline silicon behind epoxy.")
    expect(await axeFindings(page)).toEqual([])
  }, 320_000)

  test('the firmware gets its files', async () => {
    page = await bench.open(`/choices?file=${FILE}`)
    await page.getByLabel('Names begin with').fill('tide')
    await page.getByRole('button', { name: 'Write the files' }).click()
    const header = page.locator('details', { has: page.getByText('tide.h', { exact: true }) })
    await header.waitFor({ timeout: 60_000 })
    await header.locator('summary').click()
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      header.getByRole('button', { name: 'Save tide.h' }).click(),
    ])
    expect(readFileSync(await download.path(), 'utf8')).toContain('#ifndef')
  }, 90_000)
})
