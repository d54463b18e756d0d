/** What is asked with choices of one's own, and what is taken away, in a real browser. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import type { Forecast } from '../src/report/forecast.ts'
import type { SizingReport } from '../src/report/sizing.ts'
import { epwFile, madeUpHours } from './made-up-weather.ts'
import { overwinter } from './run-cli.ts'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'

const FILE = 'fjord-tide-hut.outpost.yaml'
const RECORDING = 'recordings/snow-depth-build-41.csv.gz'
const METER = 'instruments/hand-multimeter.yaml'

let bench: Workbench
let page: Page
beforeAll(async () => {
  bench = await openWorkbench({
    examples: [FILE, 'recordings', 'instruments'],
    files: { 'ness.epw': epwFile(madeUpHours()).join('\n') },
  })
})
afterEach(async () => {
  await page.close()
})
afterAll(async () => {
  await bench.close()
  expect([...bench.strangers]).toEqual([])
  expect(bench.complaints).toEqual([])
})

async function saved(button: string): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([
    page.waitForEvent('download', { timeout: 120_000 }),
    page.getByRole('button', { name: button }).click(),
  ])
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') }
}

describe('the outlook', () => {
  test('is played with runs, years, seed and weather of one’s own, as the command plays it', async () => {
    page = await bench.open(`/outlook?file=${FILE}`)
    await page.getByText('How it is played').click()
    await page.getByLabel('Runs', { exact: true }).fill('20')
    await page.getByLabel('Years', { exact: true }).fill('2')
    await page.getByLabel('Seed').fill('half')
    const press = page.getByRole('button', { name: 'Play it' })
    expect(await press.isDisabled()).toBe(true)
    await page.getByText('A whole number from 0').waitFor()
    await page.getByLabel('Seed').fill('7')
    await page.getByLabel('Weather').selectOption('ness.epw')
    await press.click()
    await page.locator('.found').waitFor({ timeout: 60_000 })
    const part = page.locator('section.part', { hasText: 'Played otherwise' })
    expect(await axeFindings(page)).toEqual([])
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      part.getByRole('button', { name: 'Save everything (JSON)' }).click(),
    ])
    const answer = JSON.parse(readFileSync(await download.path(), 'utf8')) as Forecast
    const asked = ['--runs', '20', '--years', '2', '--seed', '7', '--weather', join(bench.folder, 'ness.epw')]
    const { out } = overwinter('forecast', join(bench.folder, FILE), ...asked, '--json')
    expect(answer.outlook).toEqual((JSON.parse(out) as Forecast).outlook)
    expect(await part.locator('.found').textContent()).toBe(answer.outlook.verdict)
  }, 120_000)

  test('is taken away as the report that the command writes', async () => {
    page = await bench.open(`/outlook?file=${FILE}`)
    await page.locator('[data-from="server"]').waitFor({ timeout: 60_000 })
    const { name, text } = await saved('Save the report (HTML)')
    expect(name).toBe('fjord-tide-hut-outlook.html')
    expect(text).toContain((await page.locator('.verdict-words').textContent())!)
    expect(text.match(/<svg /g)!.length).toBeGreaterThan(4)
  }, 120_000)
})

describe('sizes', () => {
  test('are those that were typed; what is no list of them is told at its field', async () => {
    page = await bench.open(`/choices?file=${FILE}`)
    await page.getByLabel('Cells of the map').fill('400 mAh, 600 miles')
    await page.getByText('"miles" is no unit').waitFor()
    const press = page.getByRole('button', { name: 'Size it' })
    expect(await press.isDisabled()).toBe(true)
    expect(await axeFindings(page)).toEqual([])
    await page.getByLabel('Cells of the map').fill('1 Ah, 400 mAh')
    await page.getByLabel('Panels, by their best power').fill('0.2 W')
    await page.getByLabel('Intervals', { exact: true }).fill('20 min')
    await page.locator('section.part', { hasText: 'The smallest cell' }).getByText('How it is played').click()
    await page.getByLabel('Runs of a design at most').fill('80')
    await press.click()
    await page.getByRole('figure', { name: 'Cell, panel and interval' }).waitFor({ timeout: 120_000 })
    const { name, text } = await saved('Save everything (JSON)')
    expect(name).toBe('fjord-tide-hut-size.json')
    const { frontier } = JSON.parse(text) as SizingReport
    expect(frontier.capacities_C).toEqual([1440, 3600])
    expect(frontier.intervals_s).toEqual([1200])
  }, 180_000)
})

describe('a recording', () => {
  test('is read with ranges that were set by hand, which a link keeps', async () => {
    page = await bench.open(`/bench?recording=${RECORDING}&instrument=${METER}`)
    const field = page.getByLabel('Ranges set by hand')
    await field.fill('0 s=mA; 1 min=pA')
    await field.press('Enter')
    await page.getByText('the ranges are µA, mA, A').waitFor({ timeout: 60_000 })
    await field.fill('0 s=A')
    await field.press('Enter')
    await page.waitForURL(/ranges=0\+s%3DA/)
    // On the ampere range the current at rest is below half a digit.
    await page.locator('.bench-verdict', { hasText: 'at rest it draws <' }).waitFor({ timeout: 60_000 })
    const { name, text } = await saved('Save the report (HTML)')
    expect(name).toBe('snow-depth-build-41.html')
    expect(text).toContain('measured by hand multimeter of 4000 counts')
  }, 120_000)
})
