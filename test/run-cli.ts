/** Drives the built command line as a process, as a user would. */
import { spawn, spawnSync } from 'node:child_process'
import { resolve } from 'node:path'

export const MAIN = resolve('dist/cli/main.js')

export interface Ran {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

export const overwinter = (...args: string[]): Ran => overwinterIn('.', ...args)

/** With `folder` as the one that the user works in. */
export function overwinterIn(folder: string, ...args: string[]): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...args], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  })
  return { code: status, out: stdout, err: stderr }
}

/** Starts it, sends `signal` once it has run for `after_ms`, and waits for its end. */
export function interrupted(after_ms: number, ...args: string[]): Promise<Ran> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [MAIN, ...args])
    let out = ''
    let err = ''
    child.stdout.on('data', (chunk) => {
      out += chunk
    })
    child.stderr.on('data', (chunk) => {
      err += chunk
    })
    child.on('close', (code) => done({ code, out, err }))
    setTimeout(() => child.kill('SIGINT'), after_ms)
  })
}
