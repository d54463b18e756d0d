// `npm start`: installs what is missing, builds, forecasts the example outpost, then opens the workbench on a copy of the
// examples at http://localhost:4848, until Ctrl-C. What stands behind `--` goes on to `overwinter serve`.
import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { build, checkNode, installPackages, ROOT, run } from './prepare.mjs'

const MAIN = join(ROOT, 'dist', 'cli', 'main.js')
const EXAMPLE = 'examples/fjord-tide-hut.outpost.yaml'
/** How a forecast ends that was made: its aims hold, or do not. */
const FORECAST = [0, 1]
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP']

checkNode()
installPackages()
build()
const code = run(process.execPath, [MAIN, 'forecast', EXAMPLE])
if (!FORECAST.includes(code)) process.exit(code)

console.log()
const served = spawn(process.execPath, [MAIN, 'serve', '--examples', ...process.argv.slice(2)], {
  stdio: 'inherit',
})
// A terminal sends Ctrl-C to both, and this process only waits for the other to end; whatever else comes to it alone.
const comesToBoth = (signal) => signal === 'SIGINT' && process.stdin.isTTY === true
for (const signal of SIGNALS) process.on(signal, () => comesToBoth(signal) || served.kill(signal))
// npm passes no signal on through its shell: when both are gone, so is whoever wanted the workbench.
const parent = process.ppid
if (process.env.npm_lifecycle_event !== undefined)
  setInterval(() => process.ppid !== parent && served.kill(), 500).unref()
served.on('error', (error) => {
  console.error(`The workbench could not be started: ${error.message}`)
  process.exit(1)
})
// Ctrl-C is how it is meant to end.
served.on('exit', (ended) => process.exit(ended === 130 ? 0 : (ended ?? 1)))
