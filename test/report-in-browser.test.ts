/** The one-file report in a real browser: it asks for nothing, fits any width, and reads in light, dark and print. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser } from 'playwright-core'
import { chromium } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchOptions } from './browser.ts'
import { overwinter } from './run-cli.ts'

let folder: string
let browser: Browser
let address: string
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-report-'))
  const report = join(folder, 'hut.html')
  overwinter(
    'forecast',
    'examples/fjord-tide-hut.outpost.yaml',
    '--runs',
    '20',
    '--years',
    '2',
    '--html',
    report,
  )
  address = pathToFileURL(report).href
  browser = await chromium.launch(launchOptions())
})
afterAll(async () => {
  await browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

describe('the report', () => {
  it.each([360, 768, 1280, 2560])('fits a window %d px wide', async (width) => {
    const page = await browser.newPage({ viewport: { width, height: 800 } })
    await page.goto(address)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    await page.close()
  })

  it('asks for nothing but itself and says nothing on the console', async () => {
    const page = await browser.newPage()
    const requests: string[] = []
    const messages: string[] = []
    page.on('request', (request) => requests.push(request.url()))
    page.on('console', (message) => messages.push(message.text()))
    page.on('pageerror', (error) => messages.push(error.message))
    await page.goto(address)
    expect(requests).toEqual([address])
    expect(messages).toEqual([])
    await page.close()
  })

  it.each([
    ['light', 1280],
    ['dark', 1280],
    ['light', 360],
  ] as const)('has nothing for axe to find in %s at %d px', async (colorScheme, width) => {
    const page = await browser.newPage({ colorScheme, viewport: { width, height: 800 } })
    await page.goto(address)
    await page.addScriptTag({ path: 'node_modules/axe-core/axe.min.js' })
    const found = await page.evaluate(async () => {
      const { axe } = window as unknown as {
        axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
      }
      return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 120)}`)
    })
    expect(found).toEqual([])
    await page.close()
  })

  it('names its figures and shows the numbers behind each by keyboard', async () => {
    const page = await browser.newPage()
    await page.goto(address)
    const figures = await page.locator('figure svg[aria-label]').count()
    expect(figures).toBeGreaterThanOrEqual(4)
    expect(await page.locator('figcaption').count()).toBe(figures)
    await page.locator('#year summary').focus()
    await page.keyboard.press('Enter')
    expect(await page.locator('#year table').isVisible()).toBe(true)
    await page.close()
  })

  it('prints to paper', async () => {
    const page = await browser.newPage()
    await page.goto(address)
    const pdf = await page.pdf({ format: 'A4' })
    expect(pdf.subarray(0, 4).toString()).toBe('%PDF')
    await page.close()
  })
})
