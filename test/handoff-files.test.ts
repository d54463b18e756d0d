/** From an outpost file to the files that are handed over: places of refusals, all or nothing, examples, documentation. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { HandoffChoices } from '../src/workbench/handoff.ts'
import { handoffDocs, handoffFile, writeHandoff } from '../src/workbench/handoff.ts'
import { compileC, folderWith, missing } from './compile-c.ts'

const noCompiler = missing('cc')
if (noCompiler !== null) console.warn(`skipped: ${noCompiler}`)

const FJORD = 'examples/fjord-tide-hut.outpost.yaml'
const choices: HandoffChoices = {
  prefix: 'tide',
  bcd: true,
  clock: 'local time',
  seed: 1,
  variant: null,
  calendarYear: 2025,
  colour: false,
}
const page = () => readFileSync(resolve('docs/handoff.md'), 'utf8')

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-handoff-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

/** An example with a part of its text exchanged. */
function changed(example: string, from: string, to: string): { file: string; line: number } {
  const text = readFileSync(resolve(example), 'utf8')
  expect(text).toContain(from)
  const file = join(folder, 'changed.outpost.yaml')
  writeFileSync(file, text.replace(from, to))
  return { file, line: text.slice(0, text.indexOf(from)).split('\n').length }
}

const examples = readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml'))

describe.skipIf(noCompiler !== null)('C of every example', () => {
  it.each(examples)('compiles without a warning: %s', async (name) => {
    const { files } = await handoffFile(join('examples', name), { ...choices, prefix: 'outpost' })
    const made = folderWith(files)
    expect(compileC(made, ['-c', 'outpost.c'], 'outpost.o')).toBe('')
    rmSync(made, { recursive: true })
  })

  it('compiles with the main loop of the documentation', async () => {
    const [, loop] = /^```c\n(.*?)^```/ms.exec(page()) ?? []
    const { files } = await handoffFile(FJORD, choices)
    const made = folderWith({ ...files, 'loop.c': loop })
    expect(compileC(made, ['-c', 'loop.c'], 'loop.o')).toBe('')
    rmSync(made, { recursive: true })
  })
})

describe('what is handed over', () => {
  it("takes thresholds, intervals and restart from the file's own words", async () => {
    const { handoff } = await handoffFile(FJORD, choices)
    // 3.62 V, hysteresis 80 mV, 15 min and 1 h, restart above 3.5 V; the converter works down to 2.0 V.
    expect(handoff.rows).toMatchObject([
      { below_mV: null, above_mV: null, interval_s: 900 },
      { below_mV: 3620, above_mV: 3700, interval_s: 3600 },
    ])
    expect(handoff.latch).toMatchObject({ restart_mV: 3500, brownout_mV: 2000 })
    // 600 mAh ± 6 % (two standard uncertainties) and the lot's own spread.
    const { low, best, high } = handoff.budget.capacity_mC
    expect(best).toBe(600 * 3600)
    expect(low).toBeLessThan(best * (1 - 0.03 * 1.64))
    expect(high).toBeGreaterThan(best * (1 + 0.03 * 1.64))
  })

  it('counts the charge of a bare cell as a sum by hand does', async () => {
    const { file } = changed('examples/cold-store-door.outpost.yaml', 'capacitor: {', '# capacitor: {')
    const { handoff } = await handoffFile(file, choices)
    // No regulator: 1.4 µA at rest and a pull-up of 0.3 µA. A wake adds, in µA·s over rest:
    // 3 ms at 1.1 mA; in one of twenty 12 ms at 0.35 mA, and 9 ms at 5.8 mA of which 3 ms at 11 mA.
    const over = (mA: number) => 1000 * mA - 1.4
    const wake_uC = 0.003 * over(1.1) + (0.012 * over(0.35) + 0.006 * over(5.8) + 0.003 * over(11)) / 20
    expect(handoff.budget.rest_nA.best).toBe(1700)
    expect(handoff.budget.wake_nC.best).toBeCloseTo(1000 * wake_uC, 0)
    // Every 30 s and a little, one report in twenty wakes.
    expect(handoff.rows[0].reports_milli.best / 1000).toBeCloseTo(86_400 / 30.004 / 20, 1)
  })

  it('gives the same numbers for the same seed, and names both', async () => {
    const [first, again] = [await handoffFile(FJORD, choices), await handoffFile(FJORD, choices)]
    expect(again.files).toEqual(first.files)
    for (const text of Object.values(first.files)) expect(text).toContain('fjord-tide-hut.outpost.yaml')
    expect(first.files['tide.h']).toContain('seed 1, 1000 draws')
    const other = await handoffFile(FJORD, { ...choices, seed: 2 })
    expect(other.handoff.rows[1]).toMatchObject({ below_mV: 3620, above_mV: 3700 })
    expect(other.handoff.budget.rest_nA).not.toEqual(first.handoff.budget.rest_nA)
  })

  it('lists each step, drain and thing kept of the file', async () => {
    const { handoff } = await handoffFile('examples/river-ford.outpost.yaml', choices)
    const paths = handoff.checklist.flatMap(({ items }) => items.map(({ path }) => path))
    for (const path of [
      'wake.boot[0]',
      'wake.steps[0]',
      'wake.steps[1]',
      'wake.steps[2]',
      'wake.steps[2].peak',
    ])
      expect(paths).toContain(path)
    for (const path of ['standing[0]', 'keeps[0]', 'keeps[1]', 'resume']) expect(paths).toContain(path)
    const words = handoff.checklist.flatMap(({ items }) => items.map(({ what }) => what)).join(' ')
    expect(words).toContain('Save "readings of two hours" (64 bytes) to flash')
    expect(words).toContain('Count on nothing in RAM')
  })

  it('shows in the documentation what it gives today', async () => {
    expect(await handoffDocs()).toEqual({ 'docs/handoff.md': page() })
  })
})

describe('refusals', () => {
  it('point at the line of an interval that no clock can wait', async () => {
    const { file, line } = changed(FJORD, 'rate: 15 min', 'rate: 900.5 s')
    await expect(handoffFile(file, choices)).rejects.toThrow(
      new RegExp(`changed\\.outpost\\.yaml:${line}:9: .*900\\.5 s.*interval-not-whole-seconds`, 's'),
    )
  })

  it('point at times of day that wander on a clock in UTC', async () => {
    const file = 'examples/footpath-counter.outpost.yaml'
    await expect(handoffFile(file, { ...choices, clock: 'UTC' })).rejects.toThrow(
      /footpath-counter.*:\d+:\d+: .*Europe\/London changes its clocks.*times-need-local-clock.*cure: .*--clock local/s,
    )
  })

  it.each(['7up', 'a b', ''])('name the prefix "%s"', async (prefix) => {
    await expect(handoffFile(FJORD, { ...choices, prefix })).rejects.toThrow(/--prefix/)
  })
})

describe('writing', () => {
  it('replaces what it wrote before', async () => {
    const made = await handoffFile(FJORD, choices)
    const out = join(folder, 'new', 'firmware')
    await writeHandoff(out, made)
    expect(await writeHandoff(out, made)).toHaveLength(4)
    expect(readdirSync(out).sort()).toEqual(['tide-before-rest.md', 'tide.c', 'tide.h', 'tide.json'])
  })

  it("touches nothing where one of the names is somebody else's", async () => {
    writeFileSync(join(folder, 'tide.c'), 'int mine;\n')
    await expect(writeHandoff(folder, await handoffFile(FJORD, choices))).rejects.toThrow(
      /tide\.c is there already/,
    )
    expect(readdirSync(folder)).toEqual(['tide.c'])
    expect(readFileSync(join(folder, 'tide.c'), 'utf8')).toBe('int mine;\n')
  })

  it('leaves nothing behind where it cannot write', async () => {
    writeFileSync(join(folder, 'file'), '')
    await expect(writeHandoff(join(folder, 'file'), await handoffFile(FJORD, choices))).rejects.toThrow(
      /cannot be written/,
    )
    expect(readdirSync(folder)).toEqual(['file'])
  })
})
