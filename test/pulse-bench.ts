/** A server beside a made-up recording of pulses, imported already; importing this opens it for the tests of a file. */
import { symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll } from 'vitest'
import type { Refused } from '../src/api/files.ts'
import { allTold, type Bench, benchWith } from './workbench-app.ts'

export const RATE_Hz = 1000
export const SAMPLES = 40_000
export const SPIKE = 23_456

/** 2 mA for 0.2 s of every second above 5 µA, with one sample of 0.4 A. */
export const currents = Float32Array.from({ length: SAMPLES }, (_, i) =>
  i === SPIKE ? 0.4 : i % 1000 < 200 ? 2e-3 : 5e-6,
)
export const CSV = `time (s),current (A)\n${Array.from(currents, (x, i) => `${(i / RATE_Hz).toFixed(3)},${x}\n`).join('')}`

export let bench: Bench
beforeAll(async () => {
  bench = benchWith({
    'pulse.csv': CSV,
    'untimed.f32': new Uint8Array(currents.buffer),
    'sub/words.csv': 'nothing,that\nis,a number\n',
    'notes.txt': 'no recording',
  })
  symlinkSync('../secret.csv', join(bench.folder, 'out.csv'))
  await imported('pulse.csv')
})
afterAll(() => bench.close())

export async function imported(file: string, rate_Hz: number | null = null) {
  const told = await allTold(await bench.send('POST', '/api/work', { work: 'import', file, rate_Hz }))
  return told.at(-1)!
}

export const ask = (route: string, query: Readonly<Record<string, string | number>>) =>
  bench.ask(`/api/recording${route}?${new URLSearchParams(query as Record<string, string>)}`)

export const refusal = async (response: Response) => ((await response.json()) as Refused).refused
