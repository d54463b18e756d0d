/** The bench in a real browser: what was measured noted, adopted, checked, compared, recorded and taken away. */
import { readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { hasTerminals } from './on-terminal.ts'
import { openPort } from './serial-port.ts'
import { axeFindings, type Workbench } from './workbench.ts'
import {
  address,
  BUILD_41,
  BUILD_42,
  chargeIn,
  directCharge,
  GAUGE,
  MADE_CSV,
  more,
  openBench,
  plain,
  read,
  sentence,
  trace,
} from './workbench-recordings.ts'

let bench: Workbench
beforeAll(async () => {
  bench = await openBench()
}, 120_000)
afterAll(async () => {
  expect(bench.complaints).toEqual([])
  expect([...bench.strangers]).toEqual([])
  await bench?.close()
})

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
    expect(words).toMatch(/A cycle takes 41 % more.*would live \d+ years instead of more than \d+ years/)
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
