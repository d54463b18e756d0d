/** What matters and thrift from the shell on two threads: twenty and more inputs, and a table of voltages. */
import { spawn } from 'node:child_process'
import { interleaved, row, seconds } from './measure.ts'

const PANEL = 'examples/fjord-tide-hut.outpost.yaml'
const PRIMARY = 'examples/river-ford.outpost.yaml'

export async function mattersBench(): Promise<void> {
  console.log('\nWhat matters, from start to end of the process')
  await bench('23 numbers, cell and weather, of a winter', ['matters', PANEL])
  await bench('16 numbers, cell and weather, of a life', ['matters', PRIMARY])
}

export async function thriftBench(): Promise<void> {
  console.log('\nThrift, from start to end of the process')
  await bench('table of at most 3 rows, with bound and new seeds', ['thrift', PANEL])
}

async function bench(name: string, command: string[]): Promise<void> {
  const [{ best_s, worst_s }] = await interleaved(2, { [name]: () => seconds(() => ended(command)) })
  row(name, `${best_s.toFixed(1)} s`, `${worst_s.toFixed(1)} s at worst`)
}

const ended = (command: string[]) =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, ['dist/cli/main.js', ...command, '--threads', '2'], {
      stdio: 'ignore',
    })
    child.on('error', fail)
    child.on('close', done)
  })
