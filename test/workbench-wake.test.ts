/** A wake as a wave and as a table, changed by typing, by mouse, by touch and by keys, in a real browser. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { commentsOf, onFiles } from './workbench-on-files.ts'

const FILE = 'fjord-tide-hut.outpost.yaml'
const FORD = 'river-ford.outpost.yaml'
const DOOR = 'cold-store-door.outpost.yaml'

const on = onFiles([FILE, FORD, DOOR], {
  address: '/wake?file=',
  ready: (page) => page.getByRole('heading', { name: 'Where a day' }),
})
const edge = (name: string) => on.page.getByRole('slider', { name: `End of ${name}`, exact: true })
const stepsOf = (text: string): Record<string, string>[] => parse(text).wake.steps
const linesChanged = (text: string, name = FILE) =>
  text.split('\n').filter((line, i) => line !== on.originals[name].split('\n')[i])

describe('the table of steps', () => {
  test('what is typed in it changes one line of the file, every comment kept', async () => {
    await on.open()
    await on.field('wake.steps[2].for').fill('7 s [3 s, 20 s]')
    await on.untilOnDisk((text) => text.includes('for: 7 s [3 s, 20 s]'))
    expect(linesChanged(on.onDisk())).toEqual(['      for: 7 s [3 s, 20 s]'])
    await on.field('wake.steps[1].draws').fill('11 mA') // its source stays beside it
    await on.untilOnDisk((text) => text.includes('{ is: 11 mA, source: "bench log 7, ten wakes averaged" }'))
    expect(commentsOf(on.onDisk())).toEqual(commentsOf(on.originals[FILE]))
  })

  test('a wrong unit is told below its row, and the field points there', async () => {
    await on.open()
    await on.field('wake.steps[1].draws').fill('9 mAh')
    const problem = on.page.locator('.row-problems .problem.error')
    await problem.waitFor()
    expect(await problem.textContent()).toMatch(/mAh.*charge.*current.*Divide the charge by the time/)
    expect(await on.field('wake.steps[1].draws').getAttribute('aria-invalid')).toBe('true')
    expect(await on.field('wake.steps[1].draws').getAttribute('aria-describedby')).toBe(
      await problem.getAttribute('id'),
    )
    await on.field('wake.steps[1].draws').fill('9 mA')
    await problem.waitFor({ state: 'detached' })
  })

  test('steps are added, moved with their comments and taken away, each undone by one press', async () => {
    await on.open()
    await on.page.getByRole('button', { name: 'Add a step', exact: true }).click()
    await on.untilOnDisk((text) => stepsOf(text).length === 5)
    expect(stepsOf(on.onDisk())[4]).toEqual({ name: 'new step', for: '1 s', draws: '10 mA' })
    await on.undo()
    await on.untilOnDisk((text) => text === on.originals[FILE])

    await on.page.getByRole('button', { name: 'Move join network up' }).click()
    await on.untilOnDisk((text) => stepsOf(text)[1].name === 'join network')
    expect(on.onDisk()).toMatch(/name: join network\n\s*# The modem sleeps/)
    await on.undo()
    await on.untilOnDisk((text) => text === on.originals[FILE])

    await on.page.getByRole('button', { name: 'Take warm up sensors away' }).click()
    await on.untilOnDisk((text) => stepsOf(text)[0].name === 'read tide')
    await on.undo()
    await on.untilOnDisk((text) => text === on.originals[FILE])
  })

  test('what a step has beyond its columns is behind "more"', async () => {
    await on.open()
    await on.page.getByRole('button', { name: 'more of send batch' }).click()
    expect(await on.field('wake.steps[3].retries.probability').inputValue()).toBe('5 %')
    await on.field('wake.steps[3].retries.times').fill('4')
    await on.untilOnDisk((text) => /retries: \{ probability: 5 %, times: 4,/.test(text))
    await on.field('wake.steps[3].note').fill('antenna on the mast')
    await on.untilOnDisk((text) => stepsOf(text)[3].note === 'antenna on the mast')
  })

  test('boot steps stand first where the device restarts', async () => {
    await on.open(FORD)
    expect(await on.field('wake.boot[0].name').inputValue()).toBe('boot')
    await edge('boot').focus()
    await on.page.keyboard.press('ArrowRight')
    // 380 ms by a handy amount: no more than a twentieth, so 10 ms.
    await on.untilOnDisk((text) => text.includes('for: 390 ms ± 40 ms'), FORD)
  })
})

describe('the wave', () => {
  test('an edge dragged by the mouse writes a rounded duration in the unit of the file', async () => {
    await on.open()
    const box = (await edge('read tide').locator('path').boundingBox())!
    await on.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    await on.page.mouse.down()
    await on.page.mouse.move(box.x + box.width / 2 + 40, box.y, { steps: 4 })
    await on.page.mouse.move(box.x + box.width / 2 + 80, box.y, { steps: 4 })
    await on.page.mouse.up()
    const lasts = Number(await edge('read tide').getAttribute('aria-valuenow'))
    await on.untilOnDisk((text) => stepsOf(text)[1].for === `${lasts} s`)
    expect(stepsOf(on.onDisk())[1].for).toMatch(/^\d\.\d{1,2} s$/)
    // Before the drag 11.6 s lay between the begin of the wake and its end, of which 80 px are some 0.9 s.
    expect(lasts).toBeGreaterThan(2.7)
    expect(lasts).toBeLessThan(3.2)
    expect(linesChanged(on.onDisk())).toHaveLength(1)
  })

  test('an edge dragged by touch moves the same', async () => {
    await on.open(FILE, { viewport: { width: 390, height: 800 }, hasTouch: true })
    await edge('send batch').scrollIntoViewIfNeeded()
    const box = (await edge('send batch').locator('path').boundingBox())!
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    const touch = await on.page.context().newCDPSession(on.page)
    const at = (type: 'touchStart' | 'touchMove' | 'touchEnd', dx: number) =>
      touch.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: x + dx, y }],
      })
    await at('touchStart', 0)
    for (const dx of [-4, -8, -12]) await at('touchMove', dx)
    await at('touchEnd', 0)
    await on.untilOnDisk((text) => !text.includes('for: 2.4 s [1.6 s, 5 s]'))
    expect(Number.parseFloat(stepsOf(on.onDisk())[3].for)).toBeLessThan(2.3)
  })

  test('arrow keys change a duration by a handy amount, and the ends of its interval in proportion', async () => {
    await on.open()
    await edge('send batch').focus()
    await on.page.keyboard.press('ArrowRight')
    // A twentieth of 2.4 s is 0.12 s: 0.1 s. The ends: 1.6 s and 5 s times 2.5/2.4, to two digits.
    await on.untilOnDisk((text) => text.includes('for: 2.5 s [1.7 s, 5.2 s]'))
    expect(await edge('send batch').getAttribute('aria-valuetext')).toBe('send batch lasts 2.5 s')
    await edge('warm up sensors').focus()
    await on.page.keyboard.press('ArrowLeft')
    await on.untilOnDisk((text) => text.includes('for: 1.15 s ± 0.1 s')) // the tolerance as it was
    await on.undo()
    await on.undo()
    await on.untilOnDisk((text) => text === on.originals[FILE])
  })

  test('is read out part by part, in numbers that are checked by hand', async () => {
    await on.open()
    const reading = on.page.getByRole('slider', { name: 'Parts of the wake, read out' })
    await reading.focus()
    await on.page.keyboard.press('End')
    // 74 mA for 2.4 s less the 10 ms of the peak: 74 mA × 2.39 s = 176.86 mC. The wake as drawn: 4.2 mA × 1.2 s +
    // 9.5 mA × 2 s + 240 mA × 12 ms + 48 mA × 5.988 s + 280 mA × 10 ms + 176.86 mC = 494.0 mC.
    expect(await reading.getAttribute('aria-valuetext')).toBe(
      'send batch: 74 mA for 2.39 s, 177 mC, 36\u00a0% of this wake; in 50\u00a0% of all wakes.',
    )
    const rows = await on.numbersOf('One wake')
    expect(rows.map(([name]) => name)).toEqual([
      'warm up sensors',
      'read tide',
      'join network, its peak',
      'join network',
      'send batch, its peak',
      'send batch',
    ])
    expect(Number(rows[5][4])).toBeCloseTo(176.86, 6)
    expect(rows.reduce((sum, row) => sum + Number(row[4]), 0)).toBeCloseTo(494.004, 3)
    for (const [, from, to, current_mA, charge_mC] of rows)
      expect(Number(charge_mC) / ((Number(to) - Number(from)) * Number(current_mA))).toBeCloseTo(1, 3)
  })

  test('of a variant can be looked at, not dragged', async () => {
    await on.open(`${FILE}&variant=half-hourly`)
    await on.page.getByText('Choose “as written” above to drag its edges.').waitFor()
    expect(await edge('read tide').count()).toBe(0)
  })

  test('shows short steps wider where asked, and keeps that in the address', async () => {
    await on.open(DOOR)
    const gap = async () =>
      (await edge('read temperature').boundingBox())!.x - (await edge('look at door').boundingBox())!.x
    const before = await gap()
    await on.page.getByLabel('short steps wider').check()
    expect(on.page.url()).toContain('parts=evened')
    expect(await gap()).not.toBe(before)
  })

  test('is saved as a drawing that stands alone, and as numbers', async () => {
    await on.open()
    const figure = on.page.getByRole('figure', { name: 'One wake', exact: true })
    const saved = async (button: string) => {
      const [download] = await Promise.all([
        on.page.waitForEvent('download'),
        figure.getByRole('button', { name: button }).click(),
      ])
      return readFileSync(await download.path(), 'utf8')
    }
    const svg = await saved('Save drawing (SVG)')
    expect(svg).toMatch(/^<svg[^>]* xmlns="http:\/\/www.w3.org\/2000\/svg"/)
    expect(svg).toContain('send batch')
    expect(svg).not.toMatch(/var\(--|class=/)
    const csv = await saved('Save numbers (CSV)')
    expect(csv.split('\r\n')[0]).toBe(
      'part,from (s),to (s),current (mA),charge (mC),share of this wake (%),share of all wakes (%)',
    )
  })
})
