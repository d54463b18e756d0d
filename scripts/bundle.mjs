// Puts what the built command loads into few files, for Node takes about a millisecond over each: `dist/cli/main.js` with
// its commands, and beside it every file that a thread begins with. What is left in `dist` serves the benchmarks.
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const ROOT = fileURLToPath(new URL('..', import.meta.url))

/** These are loaded at every start, and only in part; all other packages stay where they are. */
const INSIDE = ['commander', 'temporal-polyfill', 'temporal-utils', 'yaml', 'zod']

/** What nearly every command shares. */
const SHARED = /src\/(quantity|numeric|wake|supply|sky|outpost|outlook)\/|\/node_modules\//

const workers = [
  ['src/store', '.worker.ts'],
  ['src/workbench', '-worker.ts'],
].flatMap(([folder, ending]) =>
  readdirSync(join(ROOT, folder))
    .filter((file) => file.endsWith(ending))
    .map((file) => ({ [file.replace(/\.ts$/, '')]: join(folder, file) })),
)

await bundle(
  { main: 'src/cli/main.ts', 'job.worker': 'src/server/job.worker.ts' },
  {
    groups: [
      { name: 'quantity', test: /src\/quantity\//, priority: 2 },
      { name: 'shared', test: SHARED, minShareCount: 2, priority: 1 },
    ],
  },
)
// A thread starts while others wait: each gets one file of just what it needs.
for (const worker of workers) await bundle(worker, false)

function bundle(input, codeSplitting) {
  return build({
    root: ROOT,
    configFile: false,
    logLevel: 'warn',
    ssr: { noExternal: INSIDE },
    build: {
      ssr: true,
      outDir: 'dist/cli',
      emptyOutDir: false,
      copyPublicDir: false,
      minify: false,
      target: 'node20',
      rolldownOptions: {
        input,
        output: { codeSplitting, entryFileNames: '[name].js', chunkFileNames: '[name].js' },
      },
    },
  })
}
