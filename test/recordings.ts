/** What the tests of recordings share: the demonstration recordings, and a folder of their own to work in. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import type { RecordingReading } from '../src/report/recording-reading.ts'
import { BUILDS } from './demo-recordings.ts'
import { overwinterIn, type Ran } from './run-cli.ts'

export const DEMOS = 'examples/recordings'
export const [BEFORE, AFTER] = BUILDS.map(({ name }) => resolve(DEMOS, `${name}.csv.gz`))
export const SHUNT = resolve('examples/instruments/shunt-amplifier.yaml')
export const HAND = resolve('examples/instruments/hand-multimeter.yaml')
export const OUTPOST = resolve('examples/avalanche-snow-depth.outpost.yaml')

/** A working folder under a name; remove it when done. */
export function workIn(name: string) {
  const folder = mkdtempSync(join(tmpdir(), `overwinter-${name}-`))
  const run = (...args: string[]): Ran => overwinterIn(folder, ...args)
  return {
    folder,
    run,
    reading: (...args: string[]) => JSON.parse(run('read', ...args, '--json').out) as RecordingReading,
    file: (name: string, content: string | Uint8Array): string => {
      const path = join(folder, name)
      writeFileSync(path, content)
      return path
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}

export const widest = (text: string): number => Math.max(...text.split('\n').map((line) => [...line].length))
