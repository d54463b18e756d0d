/** What was typed or pressed is never lost, and never written otherwise than it says, in a real browser. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'

const HUT = 'fjord-tide-hut.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'
const HIVE = 'beehive-scale.outpost.yaml'
const FILES = [HUT, FORD, HIVE]

let bench: Workbench
let page: Page
const originals = new Map(FILES.map((file) => [file, readFileSync(join('examples', file), 'utf8')]))
const original = (file: string) => originals.get(file) ?? ''
beforeAll(async () => {
  bench = await openWorkbench({ examples: FILES })
})
afterEach(async () => {
  await page.close()
  for (const [file, text] of originals) writeFileSync(join(bench.folder, file), text)
})
afterAll(async () => {
  await bench.close()
  expect([...bench.strangers]).toEqual([])
  expect(bench.complaints).toEqual([])
})

const onDisk = (file: string) => readFileSync(join(bench.folder, file), 'utf8')
const write = (file: string, text: string) => writeFileSync(join(bench.folder, file), text)
const untilOnDisk = (file: string, holds: (text: string) => boolean) =>
  expect.poll(() => holds(onDisk(file)), { timeout: 15_000 }).toBe(true)
const field = (path: string) => page.locator(`[data-path="${path}"]`)
const untilTold = (words: string) =>
  expect.poll(() => page.locator('.notices').textContent(), { timeout: 15_000 }).toContain(words)
const untilNotTold = (words: string) =>
  expect.poll(() => page.locator('.notices').textContent(), { timeout: 15_000 }).not.toContain(words)
const undo = () => page.getByRole('button', { name: 'Undo', exact: true })
const choose = (file: string) => page.locator('header select').first().selectOption(file)
const saved = (file: string) => page.locator(`.saving.saved[title="${file}"]`)

/** The hut's latitude typed here as 51.5 while nothing can be saved, and written as 44.4 on the disk. */
async function changeBoth() {
  page = await bench.open(`/place?file=${HUT}`)
  await saved(HUT).waitFor()
  await page.route('**/api/text', (route) =>
    route.request().method() === 'PUT' ? route.abort() : route.continue(),
  )
  await field('place.latitude').fill('51.5')
  await page.locator('.saving.refused').waitFor()
  write(HUT, original(HUT).replace(/latitude: .*/, 'latitude: 44.4'))
  await page.getByRole('button', { name: 'Keep what stands here' }).waitFor()
  await page.unroute('**/api/text')
}

describe('leaving for another outpost', () => {
  test('while the server is away keeps what was typed and says so; it is saved, and the other opened, when it is back', async () => {
    page = await bench.open(`/place?file=${FORD}`)
    await saved(FORD).waitFor()
    await choose(HUT)
    await saved(HUT).waitFor()
    await bench.stopServer()
    await field('place.latitude').fill('51.5')
    await untilTold('does not answer')
    await page.goBack()
    await untilTold(`What was typed into ${HUT} is not saved yet`)
    await page.getByText('No outpost is open').waitFor()
    expect(onDisk(HUT)).toBe(original(HUT))
    await bench.startServer()
    await untilOnDisk(HUT, (text) => text.includes('latitude: 51.5'))
    await saved(FORD).waitFor()
    await untilNotTold('not saved')
    expect(onDisk(FORD)).toBe(original(FORD))
  }, 90_000)

  test('keeps a change of the same line, to be settled when one comes back', async () => {
    await changeBoth()
    await choose(FORD)
    await saved(FORD).waitFor()
    await untilTold(`${HUT} was changed on the disk`)
    expect(await axeFindings(page)).toEqual([])
    await page.getByRole('link', { name: 'open it and choose' }).click()
    await expect.poll(() => field('place.latitude').inputValue()).toBe('51.5')
    expect(onDisk(HUT)).toContain('latitude: 44.4')
    await page.getByRole('button', { name: 'Keep what stands here' }).click()
    await untilOnDisk(HUT, (text) => text.includes('latitude: 51.5'))
  }, 90_000)
})

describe('the disk as it was before', () => {
  test('a file that is put back is saved to again', async () => {
    page = await bench.open(`/place?file=${HUT}`)
    await page.locator('.verdict-words[data-current="true"]').waitFor() // by then it listens to the disk
    rmSync(join(bench.folder, HUT))
    await untilTold('is gone from the folder')
    await field('place.latitude').fill('51.5')
    write(HUT, original(HUT))
    await untilOnDisk(HUT, (text) => text.includes('latitude: 51.5'))
    await untilNotTold('is gone from the folder')
  })

  test('a change that the others take back leaves nothing to choose', async () => {
    await changeBoth()
    write(HUT, original(HUT))
    await untilOnDisk(HUT, (text) => text.includes('latitude: 51.5'))
    await page.getByRole('button', { name: 'Keep what stands here' }).waitFor({ state: 'detached' })
  })
})

test('undo of one stroke is seen in the field, and the next key goes on from there', async () => {
  page = await bench.open(`/wake?file=${FORD}`)
  const first = field('wake.steps[0].for')
  await first.focus()
  const before = await first.inputValue()
  await page.keyboard.press('Home')
  await page.keyboard.press('Delete')
  await untilOnDisk(FORD, (text) => text.includes(`for: ${before.slice(1)}`))
  await page.keyboard.press('Control+z')
  await expect.poll(() => first.inputValue()).toBe(before)
  await untilOnDisk(FORD, (text) => text === original(FORD))
  await page.keyboard.press('Home')
  await page.keyboard.type('2')
  await untilOnDisk(FORD, (text) => text.includes(`for: 2${before}`))
})

describe('what is taken over into the file', () => {
  const sizeIt = async (variant = '') => {
    page = await bench.open(`/choices?file=${HIVE}${variant}`)
    await page.locator('.verdict-words[data-current="true"]').waitFor()
    await page.getByLabel('Cells of the map').fill('1 Ah, 1.5 Ah')
    await page.getByLabel('Panels, by their best power').fill('500 mW, 1 W')
    await page.getByLabel('Intervals', { exact: true }).fill('30 min')
    await page.getByRole('button', { name: 'Size it' }).click()
    await page.getByRole('slider', { name: /Map of cells and panels/ }).waitFor({ timeout: 200_000 })
  }
  const press = (square: string) => page.locator(`[data-square="${square}"]`).click()
  const told = () => page.getByRole('figure', { name: 'Cell, panel and interval' }).locator('.readout')

  test('a square writes what it says however often it is pressed, and one undo takes it back', async () => {
    const wanted = original(HIVE)
      .replace('capacity: 1500 mAh ± 5 %', 'capacity: 1000 mAh ± 5 %')
      .replace('panel: { rated: 1 W at 6 V }', 'panel: { rated: 0.5 W at 6 V }')
    await sizeIt()
    await press('0,0')
    await untilOnDisk(HIVE, (text) => text === wanted)
    expect(await told().textContent()).toContain('Taken over into the file')
    await page.getByText('The squares are of the design as it was when it was sized').waitFor()
    await undo().click()
    await untilOnDisk(HIVE, (text) => text === original(HIVE))
    expect(await told().textContent()).not.toContain('Taken over')
    await press('0,1')
    await press('0,0')
    await press('0,0')
    await untilOnDisk(HIVE, (text) => text === wanted)
    await press('1,1') // the design itself
    await untilOnDisk(HIVE, (text) => text === original(HIVE))
  }, 260_000)

  test('a square of a variant is refused where the variant has the value of its own', async () => {
    await sizeIt('&variant=quarter+of+the+panel')
    await page.getByText('The squares are of the variant “quarter of the panel”').waitFor()
    await press('0,1')
    await expect.poll(() => told().textContent()).toContain('Nothing was written')
    expect(await told().textContent()).toContain('has a panel of its own')
    expect(await undo().isDisabled()).toBe(true)
    expect(onDisk(HIVE)).toBe(original(HIVE))
  }, 260_000)

  test('the intervals that were found are written as one step', async () => {
    page = await bench.open(`/choices?file=${HIVE}`)
    const part = page.locator('section.part', {
      has: page.getByRole('heading', { name: 'When light fails' }),
    })
    await part.getByLabel('Allowed intervals').fill('20 s, 5 min, 30 min, 3 h')
    await part.getByRole('button', { name: 'Find the table' }).click()
    const writes = part.getByRole('button', { name: /^Write the (table|interval) into the file/ })
    await writes.click({ timeout: 200_000 })
    await part.getByText('Written. Undo takes it back.').waitFor()
    await untilOnDisk(HIVE, (text) => text !== original(HIVE) && !text.includes('below: 3.24 V, interval'))
    await undo().click()
    await untilOnDisk(HIVE, (text) => text === original(HIVE))
    expect(await undo().isDisabled()).toBe(true)
    await part.getByText('Written. Undo takes it back.').waitFor({ state: 'detached' })
  }, 260_000)
})
