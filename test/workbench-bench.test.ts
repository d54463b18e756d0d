/** The bench in a real browser: recordings copied in, and looked at from afar and near. */
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Workbench } from './workbench.ts'
import { address, LONG, MADE_CSV, more, openBench, trace } from './workbench-recordings.ts'

let bench: Workbench
beforeAll(async () => {
  bench = await openBench()
}, 120_000)
afterAll(async () => {
  expect(bench.complaints).toEqual([])
  expect([...bench.strangers]).toEqual([])
  await bench?.close()
})

describe('a file', () => {
  it('is copied in by pieces, pauses, goes on, and is opened', async () => {
    const page = await bench.open('/bench')
    const pieces: number[] = []
    let letThrough = () => {}
    let gate = new Promise<void>((go) => {
      letThrough = go
    })
    await page.route('**/api/uploads/*?at=*', async (route) => {
      pieces.push(Number(new URL(route.request().url()).searchParams.get('at')))
      await gate
      await route.continue().catch(() => {}) // given up meanwhile
    })
    const content = Buffer.from(MADE_CSV.repeat(12))
    await page.setInputFiles('input[type=file]', {
      name: 'dropped.txt',
      mimeType: 'text/plain',
      buffer: content,
    })
    await page.getByRole('button', { name: 'Pause dropped.txt' }).click()
    await expect.poll(() => page.locator('.uploads').textContent()).toContain('paused')
    letThrough()
    const before = pieces.length
    await page.waitForTimeout(300)
    expect(pieces.length).toBe(before)
    gate = Promise.resolve()
    await page.getByRole('button', { name: 'Go on with dropped.txt' }).click()
    // A table of text by another name is called what it is.
    await page.getByRole('heading', { name: 'dropped.txt.csv' }).waitFor({ timeout: 60_000 })
    expect(readFileSync(join(bench.folder, 'dropped.txt.csv')).equals(content)).toBe(true)
    expect(pieces.at(-1)).toBeGreaterThan(0)
    await page.close()
  })

  it.each(['on its way', 'before the server answered'])(
    'that is cancelled %s leaves nothing',
    async (when) => {
      const page = await bench.open('/bench')
      let letThrough = () => {}
      const gate = new Promise<void>((go) => {
        letThrough = go
      })
      await page.route('**/api/uploads', async (route) => {
        if (when !== 'on its way') await gate
        await route.continue()
      })
      await page.route('**/api/uploads/*?at=*', () => {}) // never answered
      const sent = page.waitForRequest((asked) => when !== 'on its way' || asked.method() === 'PUT')
      const dropped = page.waitForResponse((answer) => answer.request().method() === 'DELETE')
      await page.setInputFiles('input[type=file]', {
        name: 'gone.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from('1,2\n'),
      })
      await sent
      await page.getByRole('button', { name: 'Cancel gone.csv' }).click()
      letThrough()
      expect((await dropped).status()).toBe(200)
      expect(await page.locator('.uploads li').count()).toBe(0)
      expect(() => statSync(join(bench.folder, 'gone.csv'))).toThrow()
      expect(readdirSync(join(bench.folder, '.overwinter/uploads'))).toEqual([])
      await page.close()
    },
  )

  it('dropped onto the page is taken as well, and one of another kind is refused in words', async () => {
    const page = await bench.open('/bench')
    const files = await page.evaluateHandle(() => {
      const transfer = new DataTransfer()
      transfer.items.add(new File(['x'], 'photo.jpeg'))
      return transfer
    })
    await page.locator('.drop-zone').dispatchEvent('drop', { dataTransfer: files })
    await expect
      .poll(() => page.locator('.uploads').textContent())
      .toMatch(/photo\.jpeg.*a recording .* is wanted/)
    await page.close()
  })

  it('without times asks for its rate', async () => {
    const page = await bench.open(address({ recording: LONG.name }))
    await page.getByText('there is no time in this source').waitFor({ timeout: 60_000 })
    await page.getByLabel('Sampling rate, where there is no time in it').fill('100 kHz')
    await page.getByRole('button', { name: 'Read it at this rate' }).click()
    await trace(page).waitFor({ timeout: 60_000 })
    expect(more(page).get('rate')).toBe('100000')
    await page.close()
  })
})

/** Ink, and not the middle line or the axes, near the head of the trace in the middle of the drawing. */
const inkAtHead = (page: Page) =>
  page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('.trace-drawing canvas')!
    const middle = Math.round((64 + canvas.width - 10) / 2)
    const { data } = canvas.getContext('2d')!.getImageData(middle - 3, 24, 7, 76)
    for (let at = 0; at < data.length; at += 4)
      if (data[at + 3] > 128 && data[at] < 70 && data[at + 1] < 70 && data[at + 2] < 70) return true
    return false
  })

describe('a recording of ten million samples', () => {
  it('shows one sample at every zoom, from the whole of it down to single samples', async () => {
    const at_s = (LONG.spike + 0.5) / LONG.rate_Hz
    const half_s = LONG.samples / LONG.rate_Hz - at_s
    const page = await bench.open(
      address({ recording: LONG.name, rate: LONG.rate_Hz, from: at_s - half_s, to: at_s + half_s }),
    )
    await trace(page).waitFor({ timeout: 60_000 })
    await trace(page).focus()
    let zooms = 0
    for (let width_s = 2 * half_s; width_s > 10 / LONG.rate_Hz; width_s /= 2) {
      await expect.poll(() => inkAtHead(page), { message: `${width_s} s wide`, timeout: 20_000 }).toBe(true)
      await page.keyboard.press('+')
      zooms++
    }
    expect(zooms).toBeGreaterThan(18)
    // The middle is read out: it is the sample itself.
    await page.keyboard.press('Shift+ArrowRight')
    await page.keyboard.press('Shift+ArrowLeft')
    await expect.poll(() => page.locator('.trace [role=status]').textContent()).toMatch(/: 400 mA; in sight/)
    // Beside it there is none: ink at the head is the sample, and nothing else.
    await page.keyboard.press('PageDown')
    await page.keyboard.press('PageDown')
    await expect.poll(() => inkAtHead(page)).toBe(false)
    await page.close()
  }, 120_000)

  it('is moved by dragging, zoomed by the wheel, and the address follows', async () => {
    const page = await bench.open(address({ recording: LONG.name, rate: LONG.rate_Hz, from: 40, to: 60 }))
    await trace(page).waitFor({ timeout: 60_000 })
    const box = (await trace(page).boundingBox())!
    await page.mouse.move(box.x + box.width / 2, box.y + 80)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width / 2 - 200, box.y + 80, { steps: 5 })
    await page.mouse.up()
    await expect.poll(() => Number(more(page).get('from'))).toBeGreaterThan(42)
    const width = () => Number(more(page).get('to')) - Number(more(page).get('from'))
    expect(width()).toBeCloseTo(20, 6)
    await trace(page).focus()
    await page.mouse.wheel(0, -400)
    await expect.poll(width).toBeLessThan(19)
    await page.getByRole('button', { name: 'Whole' }).click()
    await expect.poll(() => more(page).get('from')).toBeNull()
    await page.close()
  })
})
