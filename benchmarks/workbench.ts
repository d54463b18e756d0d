/** The workbench as a user meets it: first page from a cold server, a stroke of a key to a new verdict, script, memory. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { openWorkbench } from '../test/workbench.ts'

const FILES = ['fjord-tide-hut', 'footpath-counter', 'river-ford', 'cattle-trough']
const STROKES = 25

export async function benchWorkbench(): Promise<void> {
  const names = FILES.map((name) => `${name}.outpost.yaml`)
  const bench = await openWorkbench({ examples: names })
  try {
    await firstPage(bench)
    console.log(
      `server after the first page: ${memory_MB(bench.serverPid()).toFixed(0)} MB resident (asked: < 200 idle)`,
    )
    for (const name of names) {
      const page = await bench.open(`/wake?file=${name}`)
      await page.locator('[data-from="server"]').waitFor({ timeout: 120_000 })
      console.log(`${name.padEnd(32)} ${told(await strokes(page))}`)
      await page.close()
    }
    console.log(`server at rest: ${memory_MB(bench.serverPid()).toFixed(0)} MB resident`)
  } finally {
    await bench.close()
  }
}

/** By the browser's own clock, which begins with the navigation; the server has answered nobody before. */
async function firstPage(bench: Awaited<ReturnType<typeof openWorkbench>>): Promise<void> {
  const warm = await bench.browser.newPage()
  await warm.goto('about:blank')
  await warm.close()
  await bench.stopServer()
  await bench.startServer()
  const page = await bench.open('/')
  await page.locator('.sentence input').first().waitFor()
  const usable_ms = await page.evaluate(() => performance.now())
  await page.locator('.lasts[data-current="true"]').waitFor()
  const verdict_ms = await page.evaluate(() => performance.now())
  const scripts = await page.evaluate(() =>
    (performance.getEntriesByType('resource') as PerformanceResourceTiming[])
      .map(({ name }) => new URL(name).pathname)
      .filter((name) => name.endsWith('.js')),
  )
  const all = new Set([...scripts, ...workerScripts()])
  const bytes = [...all].reduce((sum, name) => sum + gzipSync(readFileSync(join('dist/web', name))).length, 0)
  console.log(
    `first page from a cold server: usable after ${usable_ms.toFixed(0)} ms (asked: < 1500), verdict after ${verdict_ms.toFixed(0)} ms; ${(bytes / 1000).toFixed(0)} kB of script, gzip (asked: < 300)`,
  )
  await page.close()
}

const workerScripts = (): string[] =>
  readdirSync('dist/web/assets')
    .filter((name) => name.startsWith('what-if.worker') && name.endsWith('.js'))
    .map((name) => `/assets/${name}`)

/** From the stroke into the field "rest" to the verdict of the new text on the page, and to that of all runs; ms. */
async function strokes(page: Page): Promise<{ first: number[]; whole: number[] }> {
  const first: number[] = []
  const whole: number[] = []
  for (let i = 0; i < STROKES; i++) {
    const took = await page.evaluate(STROKE, i)
    first.push(took.first)
    whole.push(took.whole)
    await page.waitForTimeout(150)
  }
  return { first: first.slice(5), whole: whole.slice(5) }
}

/** In the page. */
const STROKE = (i: number) =>
  new Promise<{ first: number; whole: number }>((resolve) => {
    const input = document.querySelector('[data-path="rest"]') as HTMLInputElement
    const bar = document.querySelector('.verdict') as HTMLElement
    const words = document.querySelector('.verdict-words') as HTMLElement
    const setter = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set
    const start = performance.now()
    let first: number | null = null
    let wasStale = false
    const observer = new MutationObserver(() => {
      if (words.dataset.current === 'false') wasStale = true
      else if (wasStale) {
        first ??= performance.now() - start
        if (bar.dataset.whole === 'true') {
          observer.disconnect()
          resolve({ first, whole: performance.now() - start })
        }
      }
    })
    observer.observe(bar, { subtree: true, attributes: true, childList: true, characterData: true })
    setter?.call(input, `${41 + (i % 7)} µA`)
    input.dispatchEvent(new Event('input', { bubbles: true }))
  })

function told({ first, whole }: { first: number[]; whole: number[] }): string {
  const of = (values: number[], p: number) =>
    values.sort((a, b) => a - b)[Math.floor(p * (values.length - 1))].toFixed(0)
  return `stroke to verdict ${of(first, 0.5)} ms (median; ${of(first, 0.9)} at 90 %), of all 200 runs ${of(whole, 0.5)} ms (${of(whole, 0.9)}); asked: < 100`
}

const memory_MB = (pid: number): number =>
  Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1000
