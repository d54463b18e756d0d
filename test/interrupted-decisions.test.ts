/** Decisions that are called off: from the shell by Ctrl-C, in a program by a signal. All of them would go on for hours. */
import { spawn } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Playing } from '../src/workbench/playing.ts'
import { MAIN, type Ran } from './run-cli.ts'

const PANEL = 'examples/fjord-tide-hut.outpost.yaml'
const SLEEP = 'examples/windbreak-sleep.outpost.yaml'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'interrupted-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Tells on standard error when the command begins to listen for Ctrl-C. */
const TELLS = `data:text/javascript,${encodeURIComponent(
  "process.on('newListener', (name) => name === 'SIGINT' && process.stderr.write('listening\\n'))",
)}`
/** For threads to start and to be well in their work. */
const INTO_WORK_ms = 1500

function interrupted(...args: string[]): Promise<Ran> {
  return new Promise((done) => {
    const child = spawn(process.execPath, ['--import', TELLS, MAIN, ...args])
    let out = ''
    let err = ''
    child.stdout.on('data', (chunk) => {
      out += chunk
    })
    child.stderr.on('data', (chunk) => {
      if (String(chunk).includes('listening')) setTimeout(() => child.kill('SIGINT'), INTO_WORK_ms)
      err += chunk
    })
    child.on('close', (code) => done({ code, out, err: err.replace('listening\n', '') }))
  })
}

const ENDLESS: Readonly<Record<string, (report: string, figures: string) => string[]>> = {
  size: (report, figures) => [PANEL, '--survive', '99.5 %', '--html', report, '--svg', figures],
  compare: (report, figures) => [SLEEP, '--runs', '100000', '--html', report, '--svg', figures],
  matters: () => [PANEL, '--rows', '65536', '--json'],
  thrift: () => [PANEL, '--runs', '10000', '--json'],
}

describe.each(['1', '2'])('Ctrl-C on %s threads', (threads) => {
  it.each(Object.keys(ENDLESS))('ends %s with 130, with nothing half written', async (command) => {
    const args = ENDLESS[command](join(folder, 'never.html'), join(folder, 'never'))
    const { code, out, err } = await interrupted(command, ...args, '--threads', threads)
    expect(err).toBe('Interrupted; nothing was written.\n')
    expect(code).toBe(130)
    expect(out).toBe('')
    expect(readdirSync(folder)).toEqual([])
  })
})

/** Threads run as built. */
const built = async (name: string) =>
  await import(/* @vite-ignore */ pathToFileURL(resolve(`dist/workbench/${name}.js`)).href)

const USUAL = { variant: null, weather: null, years: null, runs: null, seed: 1, stepsPerHour: 1 }
const CHOICES = { ...USUAL, calendarYear: 2027, colour: false }
const WORKS: Readonly<Record<string, (playing: Playing) => Promise<unknown>>> = {
  sizeFile: async (playing) => {
    const axes = { capacities_C: null, powers_W: null, intervals_s: null }
    const choices = { ...CHOICES, wanted: 0.995, axes, partsFile: null, objective: 'price' }
    return (await built('size')).sizeFile(PANEL, choices, playing)
  },
  compareVariants: async (playing) =>
    (await built('compare-variants')).compareVariants(SLEEP, { ...CHOICES, runs: 100_000 }, playing),
  mattersFile: async (playing) =>
    (await built('matters')).mattersFile(PANEL, { ...CHOICES, rows: 65_536 }, playing),
  thriftFile: async (playing) => {
    const converter = { resolution_V: 0.005, offset_V: 0.01 }
    const choices = {
      ...CHOICES,
      intervals_s: null,
      mostRows: 3,
      hysteresis_V: 0.05,
      converter,
      wanted: null,
    }
    return (await built('thrift')).thriftFile(PANEL, { ...choices, runs: 400 }, playing)
  },
}

describe.each([1, 2])('a signal on %s threads', (threads) => {
  it.each(Object.keys(WORKS))('stops %s in its midst, and nothing is told of it any more', async (name) => {
    const controller = new AbortController()
    let told = 0
    const onProgress = () => {
      told++
      if (told === 2) controller.abort()
    }
    const work = WORKS[name]({ threads, onProgress, signal: controller.signal })
    await expect(work).rejects.toMatchObject({ name: 'AbortError' })
    const toldByThen = told
    await new Promise((done) => setTimeout(done, 300))
    expect(told).toBe(toldByThen)
  })

  it.each(Object.keys(WORKS))('keeps %s from beginning where it is given already', async (name) => {
    const onProgress = () => expect.unreachable('it has begun')
    const work = WORKS[name]({ threads, onProgress, signal: AbortSignal.abort() })
    await expect(work).rejects.toMatchObject({ name: 'AbortError' })
  })
})
