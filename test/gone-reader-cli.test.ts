/** The command line into a pipe that nobody reads on from: quiet, with the exit code of the answer. */
import { spawn } from 'node:child_process'
import { existsSync, openSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { MAIN, type Ran } from './run-cli.ts'

/** Runs it with a reader that goes away at once, of standard output or of standard error. */
function unread(gone: 'stdout' | 'stderr', ...args: string[]): Promise<Omit<Ran, 'out'>> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [MAIN, ...args])
    let err = ''
    child[gone].destroy()
    if (gone === 'stdout')
      child.stderr.on('data', (chunk) => {
        err += chunk
      })
    else child.stdout.resume()
    child.on('close', (code) => done({ code, err }))
  })
}

const DOOR = 'examples/cold-store-door.outpost.yaml'
const WINDBREAK = 'examples/windbreak-sleep.outpost.yaml'

describe('a reader that goes away', () => {
  it.each([
    [0, ['--help']],
    [0, ['size', '--help']],
    [0, ['forecast', DOOR, '--runs', '4', '--years', '1', '--json']],
    [1, ['forecast', WINDBREAK, '--runs', '20', '--json']], // its aims are not kept
    [2, ['forecast', 'none.outpost.yaml']],
  ])('changes nothing of exit code %d: %j', async (code, args) => {
    const ran = await unread('stdout', ...args)
    expect(ran.code).toBe(code)
    if (code < 2) expect(ran.err).toBe('')
  })

  it.each([['forecast', 'none.outpost.yaml'], ['forcast']])(
    'of errors hides none of them: %s',
    async (...args) => {
      expect(await unread('stderr', ...args)).toMatchObject({ code: 2 })
    },
  )
})

const FULL = '/dev/full' // takes nothing, as a full disk would
describe.skipIf(!existsSync(FULL))('an answer that cannot be written', () => {
  it('is said, with exit code 2', async () => {
    const child = spawn(process.execPath, [MAIN, 'forecast', DOOR, '--runs', '4', '--years', '1', '--json'], {
      stdio: ['ignore', openSync(FULL, 'w'), 'pipe'],
    })
    let err = ''
    child.stderr?.on('data', (chunk) => {
      err += chunk
    })
    const code = await new Promise((done) => child.on('close', done))
    expect({ code, err }).toEqual({ code: 2, err: 'The answer could not be written: the disk is full.\n' })
  })
})
