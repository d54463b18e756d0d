/** `npm run bench [-- PART …]`: every speed that the project claims, as ratios within this one run. */
import { spawnSync } from 'node:child_process'

const PARTS: Readonly<Record<string, () => Promise<() => unknown>>> = {
  engine: async () => (await import('./engine.ts')).engineBench,
  commands: async () => (await import('./commands.ts')).commandsBench,
}

// Worker threads and commands run as built: build first.
const built = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'], {
  stdio: 'inherit',
})
if (built.status !== 0) process.exit(1)
const wanted = process.argv.slice(2)
const unknown = wanted.filter((part) => !(part in PARTS))
if (unknown.length > 0) {
  console.error(`no such part: ${unknown.join(', ')}; there are ${Object.keys(PARTS).join(', ')}`)
  process.exit(2)
}
console.log(`Node ${process.version}, ${process.platform} ${process.arch}`)
for (const [name, load] of Object.entries(PARTS))
  if (wanted.length === 0 || wanted.includes(name)) await (await load())()
