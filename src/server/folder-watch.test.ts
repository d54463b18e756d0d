import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { FileChanged } from '../api/files.ts'
import { folderWatch } from './folder-watch.ts'

const HOUR_MS = 3_600_000
let folder: string
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'overwinter-watch-')))
  mkdirSync(join(folder, 'sub'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const write = (name: string) => writeFileSync(join(folder, name), 'time,current\n')

/** The first change of that file. */
async function heard(
  watch: ReturnType<typeof folderWatch>,
  file: string,
  doing: () => void,
): Promise<FileChanged> {
  let stop = () => {}
  const change = await new Promise<FileChanged>((resolve) => {
    void watch
      .listen((each) => {
        if (each.file === file) resolve(each)
      })
      .then((end) => {
        stop = end
        doing()
      })
  })
  stop()
  return change
}

describe('the watch over a folder', () => {
  it.each(['a.csv', 'sub/a.csv'])('hears of %s from the system, long before it sweeps', async (file) => {
    const change = await heard(folderWatch(folder, HOUR_MS), file, () => write(file))
    expect(change.version).toMatch(/^[0-9a-f]{64}$/)
  })

  it('hears of folders that are made later', async () => {
    const watch = folderWatch(folder, HOUR_MS)
    await heard(watch, 'later/a.csv', () => {
      mkdirSync(join(folder, 'later'))
      write('later/a.csv')
    })
    await heard(watch, 'later/b.csv', () => write('later/b.csv'))
  })

  it('looks when it is told to, and tells what was there before as nothing new', async () => {
    write('old.csv')
    const watch = folderWatch(folder, HOUR_MS)
    const all: string[] = []
    const stop = await watch.listen(({ file }) => all.push(file))
    await heard(watch, 'new.csv', () => {
      write('new.csv')
      watch.lookSoon()
    })
    stop()
    expect(new Set(all)).toEqual(new Set(['new.csv']))
  })

  it('rests while nobody listens, and begins anew from what is there', async () => {
    const watch = folderWatch(folder, HOUR_MS)
    const stop = await watch.listen(() => {})
    stop()
    write('between.csv')
    const all: string[] = []
    const end = await watch.listen(({ file }) => all.push(file))
    await heard(watch, 'after.csv', () => write('after.csv'))
    end()
    expect(all).not.toContain('between.csv')
  })
})
