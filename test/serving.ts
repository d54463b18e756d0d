/** The built server as a process of its own; importing this gives each test a folder, and ends what it started. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach } from 'vitest'
import type { Folder } from '../src/api/files.ts'
import { MAIN } from './run-cli.ts'

export const HUT = readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8')
/** So long that only cancelling ends it. */
export const ENDLESS = {
  file: 'hut.outpost.yaml',
  text: HUT,
  variant: null,
  seed: 1,
  runs: 100_000,
  years: 5,
}

export interface Workbench {
  readonly address: string
  readonly pid: number
  readonly shown: () => string
  readonly err: () => string
  /** Sends the signal and waits for the end; the exit code. */
  readonly stop: (signal?: NodeJS.Signals) => Promise<number | null>
}

/** Of the test that is running: `folder`, which has `hut.outpost.yaml` in it, lies in `root`. */
export let root: string
export let folder: string
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

export async function workbench(
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

export const quiet = ['serve', '--no-open', '--port', '0']

export const folderOf = async ({ address }: Workbench): Promise<Folder> =>
  (await (await fetch(`${address}/api/folder`)).json()) as Folder

export const work = (address: string, asked: object, signal?: AbortSignal) =>
  fetch(`${address}/api/work`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ work: 'forecast', ...asked }),
    ...(signal === undefined ? {} : { signal }),
  })
