/** Commands from the shell: how long until the answer stands there, and how much memory it took. */
import { spawn } from 'node:child_process'
import { interleaved, row } from './measure.ts'

const MAIN = 'dist/cli/main.js'
const PRIMARY = 'examples/footpath-counter.outpost.yaml'
const PANEL = 'examples/fjord-tide-hut.outpost.yaml'

export async function commandsBench(): Promise<void> {
  console.log('\nCommands, from start to end of the process')
  const timed = await interleaved(3, {
    '--help': () => lasting(['--help']),
    [`forecast ${PRIMARY}`]: () => lasting(['forecast', PRIMARY]),
    [`forecast ${PANEL}`]: () => lasting(['forecast', PANEL]),
  })
  for (const { name, best_s, worst_s } of timed)
    row(name, `${best_s.toFixed(2)} s`, `${worst_s.toFixed(2)} s at worst`)
  for (const runs of ['200', '2000']) {
    const { peak_MB } = await measured(['forecast', PANEL, '--runs', runs, '--years', '2'])
    row(`memory at its peak, ${runs} runs`, `${peak_MB.toFixed(0)} MB`)
  }
}

const lasting = async (args: string[]) => (await measured(args)).elapsed_s

/** `resourceUsage` of the child: printed by the child itself as it leaves, so that nothing polls it. */
function measured(args: string[]): Promise<{ elapsed_s: number; peak_MB: number }> {
  const told =
    "process.on('exit', () => process.stderr.write('\\npeak ' + process.resourceUsage().maxRSS + '\\n'))"
  const hook = `data:text/javascript,${encodeURIComponent(told)}`
  return new Promise((done, fail) => {
    const began = performance.now()
    const child = spawn(process.execPath, ['--import', hook, MAIN, ...args], {
      stdio: ['ignore', 'ignore', 'pipe'],
    })
    let err = ''
    child.stderr.on('data', (chunk) => {
      err += chunk
    })
    child.on('error', fail)
    child.on('close', () => {
      const peak = [...err.matchAll(/peak (\d+)/g)].map(([, kB]) => Number(kB))
      done({ elapsed_s: (performance.now() - began) / 1000, peak_MB: Math.max(...peak) / 1024 })
    })
  })
}
