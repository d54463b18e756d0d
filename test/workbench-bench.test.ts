/** The bench in a real browser: recordings copied in, looked at from afar and near, noted, adopted, checked, compared, recorded. */
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeUp } from '../src/recording/made-up.ts'
import { planOfBuild } from './adopt-check-recordings.ts'
import { hasTerminals } from './on-terminal.ts'
import { openPort } from './serial-port.ts'
import { axeFindings, openWorkbench, type Workbench } from './workbench.ts'

const GAUGE = 'avalanche-snow-depth.outpost.yaml'
const BUILD_41 = 'recordings/snow-depth-build-41.csv.gz'
const BUILD_42 = 'recordings/snow-depth-build-42.csv.gz'

/** Ten million samples: 5 µA, and one sample of 0.4 A. */
const LONG = { name: 'long.f32', samples: 10_000_000, rate_Hz: 100_000, spike: 6_543_210 }
const long = new Float32Array(LONG.samples).fill(5e-6)
long[LONG.spike] = 0.4

const made = makeUp(planOfBuild({ rest_A: 12e-6, send_s: 0.4, idle_s: 0 }), 1, 0)
const MADE_CSV = `time (s),current (A)\n${Array.from(
  made.current_A,
  (x, k) => `${(k * made.interval_s).toFixed(3)},${x.toExponential(6)}\n`,
).join('')}`

let bench: Workbench
beforeAll(async () => {
  bench = await openWorkbench({
    examples: [GAUGE, 'recordings', 'instruments'],
    files: { [LONG.name]: new Uint8Array(long.buffer), 'made.csv': MADE_CSV },
  })
}, 120_000)
afterAll(async () => {
  expect(bench.complaints).toEqual([])
  expect([...bench.strangers]).toEqual([])
  await bench?.close()
})

const address = (query: Readonly<Record<string, string | number>>) =>
  `/bench?${new URLSearchParams(query as Record<string, string>)}`
const trace = (page: Page) => page.getByRole('application', { name: /^Current over time/ })
const sentence = (page: Page, note: number) => page.locator('.note-sentence').nth(note - 1)
const more = (page: Page) => new URL(page.url()).searchParams
const read = (page: Page) => page.locator('table.states tbody tr').first().waitFor({ timeout: 60_000 })

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

/** Directly from the samples; each is held for an interval, and cut by the ends of the span. */
function directCharge(from_s: number, to_s: number): number {
  const { current_A, interval_s } = made
  let charge_C = 0
  for (let i = 0; i < current_A.length; i++) {
    const inside = Math.min((i + 1) * interval_s, to_s) - Math.max(i * interval_s, from_s)
    if (inside > 0) charge_C += Number(current_A[i].toExponential(6)) * inside
  }
  return charge_C
}

/** Without the blanks at which no line ends. */
const plain = (text: string | null): string => (text ?? '').replaceAll('\u00a0', ' ')

const UNITS: Readonly<Record<string, number>> = { nC: 1e-9, µC: 1e-6, mC: 1e-3, C: 1 }

function chargeIn(text: string) {
  const [, value, , unit] = /: (-?[\d.]+)( ± [\d.]+)? ([nµm]?C)\b/.exec(plain(text))!
  return {
    charge_C: Number(value) * UNITS[unit],
    digit_C: UNITS[unit] * 10 ** -(value.split('.')[1]?.length ?? 0),
  }
}

describe('a note', () => {
  it('made by keys tells the charge that the samples add up to, and moves by its edges', async () => {
    const page = await bench.open(address({ recording: 'made.csv', from: 2, to: 5 }))
    await trace(page).waitFor({ timeout: 60_000 })
    await read(page)
    await trace(page).focus()
    await page.keyboard.press('Enter')
    await page.getByRole('slider', { name: 'Note 1, where it begins' }).waitFor()
    const agrees = async () => {
      const [from, to] = more(page).get('notes')!.split('~').map(Number)
      const { charge_C, digit_C } = chargeIn((await sentence(page, 1).textContent()) ?? '')
      return Math.abs(charge_C - directCharge(from, to)) <= digit_C
    }
    await expect.poll(agrees).toBe(true)
    const edge = page.getByRole('slider', { name: 'Note 1, where it ends' })
    await edge.focus()
    const before = await sentence(page, 1).textContent()
    for (let k = 0; k < 12; k++) await page.keyboard.press('Shift+ArrowRight')
    await expect.poll(() => sentence(page, 1).textContent()).not.toBe(before)
    await expect.poll(agrees).toBe(true)
    await expect.poll(() => Number(more(page).get('notes')!.split('~')[1])).toBeGreaterThan(4.1)
    await page.keyboard.press('Delete')
    await expect.poll(() => more(page).get('notes')).toBeNull()
    // The way back brings it again.
    await page.goBack()
    await expect.poll(() => page.locator('.note-sentence').count()).toBe(1)
    await page.close()
  })

  it('dragged with Shift is a sentence with its share of the wake, and a link to it', async () => {
    const page = await bench.open(address({ recording: 'made.csv', from: 2, to: 5 }))
    await trace(page).waitFor({ timeout: 60_000 })
    await read(page)
    const box = (await trace(page).boundingBox())!
    const x = (time_s: number) => box.x + 64 + ((time_s - 2) / 3) * (box.width - 64 - 22)
    await page.keyboard.down('Shift')
    await page.mouse.move(x(3.32), box.y + 60)
    await page.mouse.down()
    await page.mouse.move(x(3.5), box.y + 70, { steps: 4 })
    await page.mouse.move(x(3.68), box.y + 60, { steps: 4 })
    await page.mouse.up()
    await page.keyboard.up('Shift')
    // 40 mA for 0.36 of 0.4 s; 14.4 of 17.5 mC are 82 %.
    await expect
      .poll(async () => plain(await sentence(page, 1).textContent()))
      .toMatch(
        /^3\d\d ms at (40|39\.9\d*|40\.0\d*) ± 0\.\d+ mA \(C\): 14\.\d+ ± 0\.\d+ mC, 8\d % of this wake\.$/,
      )
    const link = await page.locator('.note-link').getAttribute('href')
    const shown = await sentence(page, 1).textContent()
    const other = await bench.open(link!)
    await read(other)
    await expect.poll(() => sentence(other, 1).textContent()).toBe(shown)
    await other.close()
    await page.close()
  })
})

describe('what was measured', () => {
  it('names states, wakes and the odd one, and leads to it', async () => {
    const page = await bench.open(address({ recording: BUILD_41 }))
    await read(page)
    expect(await page.locator('table.states tbody tr').count()).toBe(4)
    expect(plain(await page.locator('.bench-verdict').first().textContent())).toMatch(/1 of 12 wakes is odd/)
    await page.getByRole('button', { name: 'Show it' }).click()
    // The odd wake begins at 116.9 s.
    await expect.poll(() => Number(more(page).get('from'))).toBeGreaterThan(116)
    await expect.poll(() => page.locator('path.pen-cool').count()).toBe(1)
    await page.close()
  })

  it('goes into the outpost after a preview, and Undo takes it back', async () => {
    const file = join(bench.folder, GAUGE)
    const before = readFileSync(file, 'utf8')
    const page = await bench.open(address({ file: GAUGE, recording: BUILD_41 }))
    await read(page)
    await page.getByRole('button', { name: 'Show what would change' }).click()
    const lines = page.getByRole('region', { name: 'What would change' })
    await lines.waitFor({ timeout: 60_000 })
    expect(await lines.textContent()).toMatch(/-rest: \{ is: 2\.6 µA ± 0\.6 µA.*\+rest: \{ is: 2\.7 µA/s)
    expect(readFileSync(file, 'utf8')).toBe(before)
    await page.getByRole('button', { name: 'Write it into the outpost' }).click()
    await expect
      .poll(() => readFileSync(file, 'utf8'))
      .toContain('source: "recording snow-depth-build-41.csv.gz, state A"')
    await page.getByText('Written. Undo, at the top, takes it back.').waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => readFileSync(file, 'utf8')).toBe(before)
    await page.close()
  }, 120_000)

  it('is held against the budget in words', async () => {
    const page = await bench.open(address({ file: GAUGE, recording: BUILD_42 }))
    await read(page)
    await page.getByRole('button', { name: 'Check it' }).click()
    await page.locator('.judged li').first().waitFor({ timeout: 60_000 })
    const judged = (await page.locator('.judged li').allTextContents()).map(plain)
    expect(judged.some((text) => /✓ pass measure depth/.test(text))).toBe(true)
    expect(judged.some((text) => /✗ fail rest: current 8\.[34]/.test(text))).toBe(true)
    await page.close()
  })

  it('is set beside another build, with what that does to the outpost', async () => {
    const page = await bench.open(address({ file: GAUGE, recording: BUILD_42, beside: BUILD_41 }))
    await read(page)
    await page.getByRole('button', { name: 'Compare' }).click()
    await page.locator('table.differences').waitFor({ timeout: 180_000 })
    expect(await page.locator('table.differences').textContent()).toMatch(/appeared/)
    const words = plain(await page.locator('.bench-verdict').last().textContent())
    expect(words).toMatch(/A cycle takes 40 % more.*would live \d+ years instead of \d+ years/)
    await page.close()
  }, 240_000)
})

describe.skipIf(!hasTerminals)('a serial port', () => {
  it('is recorded from, with what comes in sight, until it is stopped; then the recording opens', async () => {
    const port = await openPort()
    const page = await bench.open('/bench')
    await page.getByLabel('Port').fill(port.name)
    await page.getByLabel('Into').fill('live.csv')
    await page.getByRole('button', { name: 'Record', exact: true }).click()
    const lines = MADE_CSV.split('\n').slice(1, 8001).join('\n')
    await expect
      .poll(
        async () => {
          port.say('# listening\n')
          return readSize(join(bench.folder, 'live.csv'))
        },
        { timeout: 30_000 },
      )
      .toBeGreaterThan(0)
    port.say(`${lines}\n`)
    await page.getByText('8000 samples').waitFor({ timeout: 60_000 })
    expect(await page.locator('.live-bar').count()).toBeGreaterThan(10)
    // It goes on while another page is looked at.
    await page.getByRole('link', { name: 'Start', exact: true }).click()
    await page.getByRole('link', { name: 'Bench', exact: true }).click()
    await page.getByRole('button', { name: 'Stop' }).click()
    await page.getByText('8000 samples are in live.csv').waitFor()
    port.pull()
    expect(readFileSync(join(bench.folder, 'live.csv'), 'utf8').replaceAll('# listening\n', '')).toBe(
      `${lines}\n`,
    )
    await page.getByRole('button', { name: 'Open live.csv' }).click()
    await read(page)
    await page.close()
  }, 120_000)
})

function readSize(path: string): number {
  try {
    return statSync(path).size
  } catch {
    return 0
  }
}

describe('the page', () => {
  it('gives its figures away as drawings and numbers', async () => {
    const page = await bench.open(address({ recording: BUILD_41, from: 20, to: 40, notes: '22~24' }))
    await read(page)
    const [drawing] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save drawing (SVG)' }).first().click(),
    ])
    const svg = readFileSync(await drawing.path(), 'utf8')
    expect(drawing.suggestedFilename()).toBe('snow-depth-build-41-trace.svg')
    // Hundreds of columns, the states' rows and their letters.
    expect(svg.match(/M[\d.]+ [\d.]+V[\d.]+/g)!.length).toBeGreaterThan(300)
    expect(svg).toMatch(/>D<\/text>/)
    const [numbers] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save numbers (CSV)' }).first().click(),
    ])
    const rows = readFileSync(await numbers.path(), 'utf8')
      .trim()
      .split('\r\n')
    expect(rows[0]).toBe('from (s),lowest (A),mean (A),highest (A)')
    expect(rows.length).toBeGreaterThan(100)
    await page.close()
  })

  it.each([
    ['light', 1280],
    ['dark', 1280],
    ['light', 360],
    ['dark', 360],
  ] as const)(
    'has nothing for axe to find in %s at %d px, and fits',
    async (colorScheme, width) => {
      const page = await bench.open(
        address({ file: GAUGE, recording: BUILD_42, from: 30, to: 60, notes: '38~38.5_39~40' }),
        { colorScheme, viewport: { width, height: 900 } },
      )
      await read(page)
      await page.getByRole('button', { name: 'Move the edges of note 2' }).click()
      await page.getByRole('button', { name: 'Show what would change' }).click()
      await page.getByRole('region', { name: 'What would change' }).waitFor({ timeout: 60_000 })
      await page.locator('.other-ways > summary').click()
      expect(await axeFindings(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
      await page.close()
    },
    120_000,
  )

  it('fits a very wide window, and prints', async () => {
    const page = await bench.open(address({ recording: BUILD_41 }), {
      viewport: { width: 2560, height: 1200 },
    })
    await read(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(2560)
    expect((await page.pdf({ format: 'A4' })).subarray(0, 4).toString()).toBe('%PDF')
    await page.close()
  })
})
