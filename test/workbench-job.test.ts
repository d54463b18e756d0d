/** The whole job by keyboard alone, in a real browser: each page is left by Tab, past everything that it can be asked. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'
import { type Hands, handsOn } from './workbench-keyboard.ts'

const FILE = 'ridge-mast.outpost.yaml'
const RECORDING = 'snow-depth-build-41.csv.gz'

let bench: Workbench
let page: Page
let hands: Hands
beforeAll(async () => {
  bench = await openWorkbench({
    files: { [RECORDING]: readFileSync(join('examples', 'recordings', RECORDING)) },
  })
  page = await bench.open('/')
  hands = await handsOn(page)
  await page.getByRole('button', { name: 'Make it an outpost' }).waitFor()
})
afterAll(async () => {
  await bench.close()
  expect([...bench.strangers]).toEqual([])
  expect(bench.complaints).toEqual([])
})

const onDisk = () => readFileSync(join(bench.folder, FILE), 'utf8')
const untilOnDisk = (words: RegExp) => expect.poll(onDisk, { timeout: 15_000 }).toMatch(words)
/** Tab from wherever the focus is, round the end of the page, to the pages in its head. */
async function turnTo(name: string) {
  await hands.press(name)
  await page.waitForURL(`**/${name.toLowerCase()}?file=${FILE}`)
  await expect.poll(async () => (await hands.focus()).role).toBe('main')
}

test('Start: the first stop leads past the head, the blanks are filled, the sentence becomes a file', async () => {
  await hands.press('Skip to the page')
  expect((await hands.focus()).role).toBe('main')
  await hands.fill('Cell', 'Li-ion 2000 mAh')
  await hands.fill('Wakes every', '30 min')
  await hands.fill('Draws awake', '18 mA')
  await hands.fill('A wake lasts', '3 s')
  await hands.fill('Draws at rest', '12 µA')
  await hands.fill('Place', 'Bergen')
  await hands.fill('Panel', '0.5 W at 5.5 V')
  await hands.fill('Call it', 'Ridge mast')
  await page.locator('.lasts[data-current="true"]').waitFor()
  await hands.press('Make it an outpost')
  await page.waitForURL(`**/wake?file=${FILE}`)
  expect(onDisk()).toContain('title: Ridge mast')
  await expect.poll(async () => (await hands.focus()).role).toBe('main')
})

test('Wake: a duration by the wave and in the table, a step added and taken back', async () => {
  await page.getByRole('slider', { name: 'End of work' }).waitFor()
  await hands.tabTo('End of work')
  await hands.keys('ArrowRight', 'ArrowRight')
  await untilOnDisk(/for: 3\.2 s/)
  expect((await hands.focus()).valueText).toBe('work lasts 3.2 s')
  await hands.fill('work: for', '2.5 s')
  await untilOnDisk(/for: 2\.5 s/)
  const before = onDisk()
  await hands.press('Add a step')
  await untilOnDisk(/name: new step/)
  await expect.poll(async () => (await hands.focus()).name).toBe('step 2: step')
  await hands.press('Move new step up')
  await untilOnDisk(/name: new step[\s\S]*name: work/)
  await expect.poll(async () => (await hands.focus()).name).toBe('step 1: step') // there is no further up
  await hands.press('Take new step away')
  await expect.poll(async () => (await hands.focus()).name).toBe('Take work away')
  await hands.press('Add a step')
  await hands.press('Take new step away')
  await expect.poll(async () => (await hands.focus()).name).toBe('Take work away')
  await untilOnDisk(/name: work/)
  await hands.keys('Control+z', 'Control+z', 'Control+z', 'Control+z', 'Control+z')
  await expect.poll(onDisk, { timeout: 15_000 }).toBe(before)
  await hands.tabTo('End of work', 'Shift+Tab')
})

test('Supply: another cell', async () => {
  await turnTo('Supply')
  await hands.fill('Capacity', '2600 mAh')
  await untilOnDisk(/capacity: 2600 mAh/)
})

test('Place: a point of the skyline is added, raised and turned', async () => {
  await turnTo('Place')
  await hands.press('Add a point to the skyline')
  await hands.tabTo('Skyline at S')
  await hands.keys('ArrowUp', 'ArrowUp', 'ArrowRight')
  await untilOnDisk(/185: 12/)
  expect(await hands.focus()).toMatchObject({ name: 'Skyline at 185°', valueText: '12° high at 185°' })
  await hands.keys('Delete')
  await expect.poll(onDisk, { timeout: 15_000 }).not.toContain('185:')
  await expect.poll(async () => (await hands.focus()).name).toBe('Add a point to the skyline')
  await hands.keys('Control+z')
  await untilOnDisk(/185: 12/)
})

test('Outlook: the fan is read out day by day', async () => {
  await turnTo('Outlook')
  await hands.tabTo(/^Charge left by day of the year/)
  await hands.keys('Home')
  const first = (await hands.focus()).valueText
  await hands.keys('ArrowRight')
  const second = (await hands.focus()).valueText
  for (const words of [first, second])
    expect(words).toMatch(/: \d+(\.\d+)?\u00a0% of charge left in the middle run/)
  expect(second?.split(':')[0]).not.toBe(first?.split(':')[0])
})

test('Choices: the files for the firmware are written, unfolded and saved', async () => {
  await turnTo('Choices')
  await hands.press('Write the files')
  await page.getByText('outpost.h', { exact: true }).waitFor({ timeout: 60_000 })
  await hands.press('outpost.h')
  const download = page.waitForEvent('download')
  await hands.press('Save outpost.h')
  expect(readFileSync(await (await download).path(), 'utf8')).toContain('#ifndef')
})

test('Bench: a recording is read, a stretch of it noted, and what was measured written into the outpost', async () => {
  await turnTo('Bench')
  await hands.press(RECORDING)
  await page.locator('.bench-verdict').waitFor({ timeout: 60_000 })
  await hands.tabTo(`Current over time of ${RECORDING}`)
  await hands.keys('+', '+', 'ArrowRight', 'Enter')
  await expect.poll(async () => (await hands.focus()).name).toBe('Note 1, where it begins')
  const sentence = page.locator('.note-sentence[aria-busy="false"]')
  await sentence.waitFor()
  const before = await sentence.textContent()
  await hands.keys('PageUp')
  await expect.poll(() => sentence.textContent()).not.toBe(before)
  expect(await sentence.textContent()).toMatch(/ at .*mA.*: .*mC/)

  await hands.press('Show what would change')
  await page.locator('.match select').first().waitFor({ timeout: 60_000 })
  const choices = () =>
    page
      .locator('.match select')
      .evaluateAll((all) => all.map((each) => (each as HTMLSelectElement).value || 'asked'))
  for (const state of ['B', 'D']) {
    await hands.tabTo(new RegExp(`^${state}, .* is$`))
    await page.keyboard.type('no step')
  }
  // What is left is drawn like the one step that the sentence knows, at 18 mA, but for a time unlike it.
  await expect.poll(choices, { timeout: 30_000 }).toEqual(['rest', 'none', 'asked', 'none'])
  const { name } = await hands.tabTo(/^C, .* is$/, 'Shift+Tab')
  expect(name).toContain('18.006 ± 0.020 mA') // made with 18 mA: snow-depth-build-41.truth.json
  await page.keyboard.type('work')
  await page.locator('.difference').waitFor({ timeout: 30_000 })
  await hands.press('Write it into the outpost')
  await untilOnDisk(/draws: .*18\.0\d* mA/)
  expect(onDisk()).toContain(RECORDING)
  // All that was done before stands beside it.
  for (const words of ['title: Ridge mast', 'capacity: 2600 mAh', '185: 12', 'place: Bergen'])
    expect(onDisk()).toContain(words)
}, 180_000)
