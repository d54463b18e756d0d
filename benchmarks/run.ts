/** `npm run bench [-- PART …]`: every speed that the project claims, as ratios within this one run. */
import { spawnSync } from 'node:child_process'
import { row } from './measure.ts'

const PARTS: Readonly<Record<string, () => Promise<() => unknown>>> = {
  engine: async () => (await import('./engine.ts')).engineBench,
  commands: async () => (await import('./commands.ts')).commandsBench,
  recording: async () => {
    const { recordingBench } = await import('./recording.ts')
    return () => recordingBench({ samples: 50_000_000, longSamples: 100_000_000, rounds: 3 })
  },
  states: async () => {
    const { statesBench } = await import('./states.ts')
    return () => {
      const { samples, seconds, wakes, wakesExpected } = statesBench(50_000_000)
      row(
        `states and cycles of ${samples / 1e6} million samples`,
        `${seconds.toFixed(1)} s`,
        `${wakes} of ${wakesExpected} wakes`,
      )
    }
  },
  'what-if': async () => (await import('./what-if.ts')).whatIfBench,
  sizing: async () => (await import('./decisions.ts')).sizingBench,
  matters: async () => (await import('./sensitivity.ts')).mattersBench,
  workbench: async () => (await import('./workbench.ts')).benchWorkbench,
  bench: async () => (await import('./workbench-bench.ts')).benchOfWorkbench,
  thrift: async () => (await import('./sensitivity.ts')).thriftBench,
}

// Worker threads and commands run as built: build first.
for (const step of [
  ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'],
  ['scripts/bundle.mjs'],
  ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'error'],
])
  if (spawnSync(process.execPath, step, { stdio: 'inherit' }).status !== 0) process.exit(1)
const wanted = process.argv.slice(2)
const unknown = wanted.filter((part) => !(part in PARTS))
if (unknown.length > 0) {
  console.error(`no such part: ${unknown.join(', ')}; there are ${Object.keys(PARTS).join(', ')}`)
  process.exit(2)
}
console.log(`Node ${process.version}, ${process.platform} ${process.arch}`)
for (const [name, load] of Object.entries(PARTS))
  if (wanted.length === 0 || wanted.includes(name)) await (await load())()
