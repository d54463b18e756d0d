/** Sizing from the shell on two threads: a frontier of 12 × 12 × 5 designs, and all that `size` tells. */
import { spawn } from 'node:child_process'
import { interleaved, row, seconds } from './measure.ts'

const MAIN = 'dist/cli/main.js'
const TWO = ['--threads', '2']
const PANEL = 'examples/fjord-tide-hut.outpost.yaml'

export async function sizingBench(): Promise<void> {
  console.log('\nSizing, from start to end of the process')
  await bench('frontier of 12 cells, 12 panels, 5 intervals at 95 %', ['benchmarks/frontier.mjs'])
  await bench('everything, with parts', [MAIN, 'size', PANEL, '--parts', 'examples/parts.yaml', ...TWO])
  await bench('four variants side by side', [
    MAIN,
    'compare',
    'examples/windbreak-sleep.outpost.yaml',
    ...TWO,
  ])
}

async function bench(name: string, command: string[]): Promise<void> {
  const [{ best_s, worst_s }] = await interleaved(2, { [name]: () => seconds(() => ended(command)) })
  row(name, `${best_s.toFixed(1)} s`, `${worst_s.toFixed(1)} s at worst`)
}

const ended = (command: string[]) =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, command, { stdio: 'ignore' })
    child.on('error', fail)
    child.on('close', done)
  })
