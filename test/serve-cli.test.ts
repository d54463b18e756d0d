import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { setTimeout as passing } from 'node:timers/promises'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { FileChanged, Folder } from '../src/api/files.ts'
import type { Told } from '../src/api/work.ts'
import { MAIN, overwinterIn } from './run-cli.ts'
import { allTold, toldBy } from './workbench-app.ts'

const HUT = readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8')
/** So long that only cancelling ends it. */
const ENDLESS = { file: 'hut.outpost.yaml', text: HUT, variant: null, seed: 1, runs: 100_000, years: 5 }

interface Workbench {
  readonly address: string
  readonly pid: number
  readonly shown: () => string
  readonly err: () => string
  /** Sends the signal and waits for the end; the exit code. */
  readonly stop: (signal?: NodeJS.Signals) => Promise<number | null>
}

let root: string
let folder: string
const running: ChildProcess[] = []
beforeEach(() => {
  root = realpathSync(mkdtempSync(join(tmpdir(), 'overwinter-serve-')))
  folder = join(root, 'mine')
  mkdirSync(folder)
  writeFileSync(join(folder, 'hut.outpost.yaml'), HUT)
})
afterEach(async () => {
  for (const child of running.splice(0))
    if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL')
  rmSync(root, { recursive: true, force: true })
})

async function workbench(
  args: readonly string[],
  { cwd = folder, env = {} }: { cwd?: string; env?: NodeJS.ProcessEnv } = {},
): Promise<Workbench> {
  const child = spawn(process.execPath, [MAIN, ...args], {
    cwd,
    env: { ...process.env, TMPDIR: root, ...env },
  })
  running.push(child)
  const ended = once(child, 'close').then(([code]) => code as number | null)
  let out = ''
  let err = ''
  child.stderr.on('data', (piece) => {
    err += piece
  })
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (piece) => {
      out += piece
      const found = /open at (http:\S+)\n/.exec(out)
      if (found !== null) resolve(found[1])
    })
    void ended.then((code) => reject(new Error(`ended with ${code} before it was open: ${out}${err}`)))
  })
  return {
    address,
    pid: child.pid!,
    shown: () => out,
    err: () => err,
    stop: (signal = 'SIGINT') => {
      child.kill(signal)
      return ended
    },
  }
}

const quiet = ['serve', '--no-open', '--port', '0']

const folderOf = async ({ address }: Workbench): Promise<Folder> =>
  (await (await fetch(`${address}/api/folder`)).json()) as Folder

const work = (address: string, asked: object, signal?: AbortSignal) =>
  fetch(`${address}/api/work`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ work: 'forecast', ...asked }),
    ...(signal === undefined ? {} : { signal }),
  })

describe('overwinter serve', () => {
  it('opens the folder that one is in, says the address, and stops at Ctrl-C', async () => {
    const bench = await workbench(quiet)
    expect(bench.address).toMatch(/^http:\/\/localhost:\d+$/)
    expect(await folderOf(bench)).toMatchObject({
      path: folder,
      isScratch: false,
      outposts: [{ file: 'hut.outpost.yaml', title: 'Tide hut in the fjord' }],
    })
    expect(await bench.stop()).toBe(130)
    expect(bench.shown()).toMatch(/Stopped\.\n$/)
    expect(bench.err()).toBe('')
    await expect(fetch(bench.address)).rejects.toThrow()
  })

  it('is what the command alone does', async () => {
    const bench = await workbench(['--no-open', '--port', '0', '--folder', folder], { cwd: root })
    expect((await folderOf(bench)).path).toBe(folder)
    expect(await bench.stop('SIGTERM')).toBe(143)
  })

  it('takes the next free port where the one it is told is used', async () => {
    const port = Number(new URL((await workbench(quiet)).address).port)
    const second = await workbench([...quiet.slice(0, -1), String(port)])
    expect(Number(new URL(second.address).port)).toBeGreaterThan(port)
    expect(second.shown()).toContain(`Port ${port} is used`)
  })

  it('opens a copy of the examples where there are no outposts, and removes it if nothing was changed', async () => {
    const empty = join(root, 'empty')
    mkdirSync(empty)
    const bench = await workbench(quiet, { cwd: empty })
    const { path, isScratch, outposts } = await folderOf(bench)
    expect(isScratch).toBe(true)
    expect(outposts).toHaveLength(
      readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml')).length,
    )
    expect(bench.shown()).toContain(`There are no outposts in ${empty}.`)
    expect(bench.shown()).toContain(`copied to ${path}`)
    await bench.stop()
    expect(existsSync(path)).toBe(false)
    expect(readdirSync(empty)).toEqual([])
  })

  it('keeps the copy where something was changed, and says where', async () => {
    const bench = await workbench([...quiet, '--examples'])
    const { path } = await folderOf(bench)
    writeFileSync(join(path, 'mine.outpost.yaml'), HUT)
    await bench.stop()
    expect(readFileSync(join(path, 'mine.outpost.yaml'), 'utf8')).toBe(HUT)
    expect(bench.shown()).toContain(`What you changed is kept in ${path}`)
  })

  it('opens an empty folder that was named, to begin there', async () => {
    const empty = join(root, 'empty')
    mkdirSync(empty)
    const bench = await workbench([...quiet, '--folder', empty])
    expect(await folderOf(bench)).toMatchObject({ path: empty, isScratch: false, outposts: [] })
  })

  it('tells of changes by other programs', async () => {
    const bench = await workbench(quiet)
    const heard = toldBy<FileChanged>(await fetch(`${bench.address}/api/events`))
    writeFileSync(join(folder, 'hut.outpost.yaml'), `${HUT}# more\n`)
    expect((await heard.next()).value.file).toBe('hut.outpost.yaml')
    // The open stream does not keep it from stopping.
    expect(await bench.stop()).toBe(130)
  })

  it.each([
    ['a folder that is not there', ['--folder', 'nowhere'], 'nowhere is no folder'],
    ['a file for a folder', ['--folder', MAIN], 'is no folder'],
    ['a port that is none', ['--port', '70000'], 'a port from 0 to 65535'],
    ['an address of another machine', ['--host', '192.0.2.7', '--token'], 'no such address'],
    ['an address for everyone without a token', ['--host', '0.0.0.0'], 'needs a token'],
    [
      'a token that could be guessed',
      ['--host', '0.0.0.0', '--token', 'secret'],
      '6 characters could be guessed',
    ],
  ])('refuses %s', (_, args, why) => {
    const { code, out, err } = overwinterIn(folder, 'serve', '--no-open', ...args)
    expect([code, out]).toEqual([2, ''])
    expect(err).toContain(why)
  })

  it('is not what a mistyped command does', () => {
    const { code, err } = overwinterIn(folder, 'forcast', 'hut.outpost.yaml')
    expect([code, err]).toEqual([2, expect.stringContaining('there is no command "forcast"')])
    expect(overwinterIn(folder, 'serve', '--help').out).toMatch(/^Usage: overwinter serve \[options\]\n/)
  })

  it('outside this machine answers only to whoever shows the token', async () => {
    const bench = await workbench([...quiet, '--host', '0.0.0.0', '--token', 'a-token-of-my-own'])
    const { port, search } = new URL(bench.address)
    expect(search).toBe('?token=a-token-of-my-own')
    const here = `http://127.0.0.1:${port}`
    expect((await fetch(`${here}/api/folder`)).status).toBe(403)
    const shown = await fetch(`${here}/?token=a-token-of-my-own`, { redirect: 'manual' })
    expect(shown.status).toBe(303)
    const cookie = shown.headers.get('set-cookie')!.split(';')[0]
    expect((await fetch(`${here}/api/folder`, { headers: { cookie } })).status).toBe(200)
  })

  it('makes a token of its own where it is told to', async () => {
    const tokens = await Promise.all(
      [1, 2].map(
        async () => new URL((await workbench([...quiet, '--token'])).address).searchParams.get('token')!,
      ),
    )
    expect(tokens[0]).not.toBe(tokens[1])
    for (const token of tokens) expect(token.length).toBeGreaterThanOrEqual(16)
  })

  it('opens the browser unless it is told not to', async () => {
    const opened = join(root, 'opened')
    for (const name of ['xdg-open', 'open']) {
      writeFileSync(join(root, name), `#!/bin/sh\necho "$@" >> ${opened}\n`)
      chmodSync(join(root, name), 0o755)
    }
    const env = { PATH: `${root}${delimiter}${process.env.PATH}`, DISPLAY: ':0' }
    await workbench(['serve', '--port', '0', '--no-open'], { env })
    const bench = await workbench(['serve', '--port', '0'], { env })
    while (!existsSync(opened) || readFileSync(opened, 'utf8') === '') await passing(20)
    expect(readFileSync(opened, 'utf8')).toBe(`${bench.address}\n`)
  })

  it('stays open where there is no browser to open', async () => {
    const bench = await workbench(['serve', '--port', '0'], { env: { PATH: root, DISPLAY: ':0' } })
    expect((await folderOf(bench)).path).toBe(folder)
  })
})

describe('long work of the built server', () => {
  it('tells its progress and its answer, the same as the command gives', async () => {
    const bench = await workbench(quiet)
    const told = await allTold(await work(bench.address, { ...ENDLESS, runs: 30, years: 2 }))
    expect(told[0]).toMatchObject({ event: 'progress', of: 30 })
    const last = told.at(-1) as Extract<Told<'forecast'>, { event: 'done' }>
    const command = overwinterIn(
      folder,
      'forecast',
      'hut.outpost.yaml',
      '--runs',
      '30',
      '--years',
      '2',
      '--json',
    )
    expect(last.answer).toEqual(JSON.parse(command.out))
  }, 180_000)

  it('compares, sizes, and says what matters, on threads', async () => {
    const bench = await workbench(quiet)
    const { runs: _, years: __, ...outpost } = ENDLESS
    cpSync('examples/parts.yaml', join(folder, 'parts.yaml'))
    for (const asked of [
      { work: 'variants' },
      { work: 'size', wanted: null, partsFile: 'parts.yaml', objective: 'price' },
      { work: 'matters' },
      { work: 'thrift', intervals_s: null, mostRows: 3 },
    ]) {
      const told = toldBy(await work(bench.address, { ...outpost, ...asked }))
      expect((await told.next()).value).toMatchObject({ event: 'progress' })
      await told.return(undefined)
    }
    const handoff = { ...outpost, work: 'handoff', prefix: 'tide', bcd: true, clock: 'local' }
    expect((await allTold(await work(bench.address, handoff))).at(-1)).toMatchObject({ event: 'done' })
  }, 180_000)

  it('leaves the server answering, and its threads end when the request is closed', async () => {
    const bench = await workbench(quiet)
    await folderOf(bench)
    const before = threadsOf(bench)
    const leaving = new AbortController()
    const told = toldBy(await work(bench.address, ENDLESS, leaving.signal))
    expect((await told.next()).value).toMatchObject({ event: 'progress' })
    expect((await folderOf(bench)).outposts).toHaveLength(1)
    if (before !== null) expect(threadsOf(bench)).toBeGreaterThan(before)
    leaving.abort()
    while (before !== null && threadsOf(bench)! > before) await passing(20)
    expect((await folderOf(bench)).outposts).toHaveLength(1)
    expect(bench.err()).toBe('')
  })

  it('is told of, and ended, when the server stops', async () => {
    const bench = await workbench(quiet)
    const told = toldBy(await work(bench.address, ENDLESS))
    await told.next()
    const stopped = bench.stop('SIGTERM')
    let last: Told | null = null
    for await (const each of told) last = each
    expect(last).toMatchObject({ event: 'refused', isOurs: false })
    expect(await stopped).toBe(143)
    expect(bench.err()).toBe('')
  })
})

/** Null where the system does not tell. */
function threadsOf({ pid }: Workbench): number | null {
  const tasks = `/proc/${pid}/task`
  return existsSync(tasks) ? readdirSync(tasks).length : null
}
