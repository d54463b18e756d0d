/** The keeper against the workbench's own server, which can be away. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import { type Bench, benchWith, GAUGE } from '../../../test/workbench-app.ts'
import { close, edit, open, openedNow, saveNow, settle } from './keeper.ts'

const HUT = 'hut.outpost.yaml'
const FORD = 'ford.outpost.yaml'

let bench: Bench
let isAway = false
beforeAll(() => {
  bench = benchWith({ [HUT]: GAUGE, [FORD]: GAUGE })
  vi.stubGlobal('fetch', (path: string, init?: RequestInit) =>
    isAway ? Promise.reject(new TypeError('refused')) : bench.ask(path, init),
  )
})
afterAll(() => {
  vi.unstubAllGlobals()
  bench.close()
  expect(bench.faults).toEqual([])
})
beforeEach(async () => {
  isAway = false
  close()
  await saveNow()
  writeFileSync(join(bench.folder, HUT), GAUGE)
})

const onDisk = () => readFileSync(join(bench.folder, HUT), 'utf8')
const textOpen = () => {
  const now = openedNow()
  return now.is === 'open' ? now.draft.text : now.is
}
const typed = GAUGE.replace(/^title: .*$/m, 'title: typed')

test('what is typed while the server is away is saved when it is back, though another outpost was opened', async () => {
  await open(HUT)
  isAway = true
  edit(typed, 'the title')
  await open(FORD)
  expect(openedNow()).toMatchObject({ is: 'refused', file: FORD })
  expect(onDisk()).toBe(GAUGE)
  isAway = false
  await saveNow()
  expect(onDisk()).toBe(typed)
})

test('and stands there when one comes back to it while the server is still away', async () => {
  await open(HUT)
  isAway = true
  edit(typed, 'the title')
  await open(FORD)
  await open(HUT)
  expect(textOpen()).toBe(typed)
  isAway = false
  await saveNow()
  expect(onDisk()).toBe(typed)
})

test('a change of the same line is still to be settled when one comes back to it', async () => {
  await open(HUT)
  const theirs = GAUGE.replace(/^title: .*$/m, 'title: theirs')
  writeFileSync(join(bench.folder, HUT), theirs)
  edit(typed, 'the title')
  await saveNow()
  await open(FORD)
  expect(openedNow()).toMatchObject({ is: 'open', draft: { file: FORD, text: GAUGE } })
  await open(HUT)
  expect(openedNow()).toMatchObject({ draft: { text: typed, conflict: { text: theirs } } })
  expect(onDisk()).toBe(theirs)
  settle('ours')
  await saveNow()
  expect(onDisk()).toBe(typed)
})

test('leaving in the middle of typing saves at once, and opening it again shows it', async () => {
  await open(HUT)
  edit(typed, 'the title')
  await open(FORD)
  expect(onDisk()).toBe(typed)
  await open(HUT)
  expect(openedNow()).toMatchObject({ draft: { text: typed, saving: { is: 'saved' } } })
})
