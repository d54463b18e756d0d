/** `npm run tour`: the pictures of the README, taken from the running workbench over a copy of the examples. */
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { openWorkbench } from '../test/workbench.ts'

const OUT = join('docs', 'tour')
const HUT = 'fjord-tide-hut.outpost.yaml'
const SNOW = 'avalanche-snow-depth.outpost.yaml'

/** The full reckoning has replaced the quick one. */
const whole = (page: Page) => page.locator('[data-from="server"]').waitFor({ timeout: 120_000 })

interface Stop {
  readonly name: string
  readonly address: string
  readonly colorScheme?: 'light' | 'dark'
  readonly width?: number
  readonly height?: number
  readonly ready: (page: Page) => Promise<unknown>
}

const STOPS: readonly Stop[] = [
  {
    name: 'start',
    address: '/',
    height: 720,
    ready: (page) => page.locator('.lasts[data-whole="true"]').waitFor(),
  },
  {
    name: 'wake',
    address: `/wake?file=${HUT}`,
    width: 1440,
    ready: async (page) => {
      await page.getByRole('button', { name: 'Show the text' }).click()
      await page.locator('.cm-content').waitFor()
      await whole(page)
    },
  },
  {
    name: 'place',
    address: `/place?file=${HUT}`,
    height: 760,
    ready: async (page) => {
      await whole(page)
      await page
        .getByRole('figure', { name: 'The sun and the skyline' })
        .evaluate((figure) => figure.scrollIntoView())
    },
  },
  { name: 'outlook', address: `/outlook?file=${HUT}`, colorScheme: 'dark', height: 820, ready: whole },
  {
    name: 'choices',
    address: `/choices?file=${HUT}`,
    ready: async (page) => {
      await page.getByRole('button', { name: 'Size it' }).click()
      const map = page.getByRole('figure', { name: 'Cell, panel and interval' })
      await map.waitFor({ timeout: 300_000 })
      await map.evaluate((figure) => figure.scrollIntoView())
    },
  },
  {
    name: 'bench',
    address: `/bench?file=${SNOW}&recording=recordings/snow-depth-build-42.csv.gz`,
    height: 1000,
    ready: (page) =>
      page
        .locator('canvas')
        .first()
        .waitFor({ timeout: 60_000 })
        .then(() => page.waitForTimeout(8000)),
  },
]

const wanted = process.argv.slice(2)
mkdirSync(OUT, { recursive: true })
const workbench = await openWorkbench({
  examples: [
    HUT,
    SNOW,
    'parts.yaml',
    'recordings',
    'instruments',
    'river-ford.outpost.yaml',
    'footpath-counter.outpost.yaml',
  ],
})
try {
  for (const { name, address, colorScheme = 'light', width = 1120, height = 900, ready } of STOPS) {
    if (wanted.length > 0 && !wanted.includes(name)) continue
    const page = await workbench.open(address, { viewport: { width, height }, colorScheme })
    await ready(page)
    await page.evaluate(() => document.fonts.ready)
    const path = join(OUT, `${name}.png`)
    await page.screenshot({ path })
    await page.close()
    console.error(`Picture: ${path}`)
  }
} finally {
  await workbench.close()
}
