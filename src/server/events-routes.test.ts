import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Bench, benchWith, toldBy } from '../../test/workbench-app.ts'
import type { FileChanged, Saved } from '../api/files.ts'

const FILE = 'gauge.outpost.yaml'
let bench: Bench
let heard: AsyncGenerator<FileChanged>
beforeEach(async () => {
  bench = benchWith({ 'sub/other.outpost.yaml': 'title: other\n', 'notes.txt': 'not ours' })
  heard = toldBy<FileChanged>(await bench.ask('/api/events'))
})
afterEach(async () => {
  bench.close()
  await heard.return(undefined)
})

const at = (name: string) => join(bench.folder, name)
const next = async (): Promise<FileChanged> => (await heard.next()).value

/** An editor may be caught between two writes; what comes in the end counts. */
async function until(file: string, version: string | null): Promise<FileChanged> {
  for (;;) {
    const change = await next()
    if (change.file === file && change.version === version) return change
  }
}

describe('changes of the folder', () => {
  it('are told when a program writes a file, with the version that reading it gives', async () => {
    writeFileSync(at(FILE), 'title: from an editor\n')
    const change = await next()
    expect(change).toEqual({ file: FILE, version: (await bench.textOf(FILE)).version })
  })

  it('are told when a file is put in place of another, as editors and git do', async () => {
    writeFileSync(at('.tmp'), 'title: renamed\n')
    renameSync(at('.tmp'), at(FILE))
    const { version } = await bench.textOf(FILE)
    expect(await until(FILE, version)).toBeTruthy()
  })

  it('are told of files that are made and removed, in folders of the folder too', async () => {
    writeFileSync(at('sub/new.outpost.yaml'), 'title: new\n')
    const { version } = await bench.textOf('sub/new.outpost.yaml')
    await until('sub/new.outpost.yaml', version)
    rmSync(at('sub/new.outpost.yaml'))
    await until('sub/new.outpost.yaml', null)
  })

  it('are told of folders that are made and removed', async () => {
    mkdirSync(at('later'))
    writeFileSync(at('later/a.outpost.yaml'), 'title: a\n')
    const a = (await bench.textOf('later/a.outpost.yaml')).version
    await until('later/a.outpost.yaml', a)
    writeFileSync(at('later/a.outpost.yaml'), 'title: b\n')
    await until('later/a.outpost.yaml', (await bench.textOf('later/a.outpost.yaml')).version)
    rmSync(at('later'), { recursive: true })
    await until('later/a.outpost.yaml', null)
  })

  it('are told of what the workbench itself saves', async () => {
    const { version: before } = await bench.textOf(FILE)
    const saved = await bench.send('PUT', '/api/text', { file: FILE, text: 'title: mine\n', before })
    expect(await next()).toEqual({ file: FILE, version: ((await saved.json()) as Saved).version })
  })

  it('are not told of other files', async () => {
    writeFileSync(at('notes.txt'), 'changed')
    writeFileSync(at('.hidden.csv'), 'made')
    writeFileSync(at('last.csv'), 'made')
    expect((await next()).file).toBe('last.csv')
  })

  it('are told to all who listen', async () => {
    const too = toldBy<FileChanged>(await bench.ask('/api/events'))
    writeFileSync(at('last.csv'), 'made')
    expect((await next()).file).toBe('last.csv')
    expect((await too.next()).value.file).toBe('last.csv')
    await too.return(undefined)
    writeFileSync(at('last.csv'), 'made again')
    expect((await next()).file).toBe('last.csv')
  })
})

it('ends when the server closes', async () => {
  bench.close()
  expect((await heard.next()).done).toBe(true)
})

it('has no head alone, which would never end', async () => {
  expect((await bench.ask('/api/events', { method: 'HEAD' })).status).toBe(400)
})
