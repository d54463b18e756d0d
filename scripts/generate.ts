// `npm run generate`: writes the files that are made from code. With --check: writes nothing, exits 1 where one is stale.
// Outputs of commands are those of the built program: build first.
import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'
import { outpostJsonSchema } from '../src/outpost/file/schema.ts'
import { handoffDocs } from '../src/workbench/handoff.ts'

const HUT = 'examples/fjord-tide-hut.outpost.yaml'
const root = fileURLToPath(new URL('..', import.meta.url))

/** A page that shows what one command prints. */
function shown(title: string, words: string, ...args: string[]): string {
  const { stdout, stderr, status } = spawnSync(process.execPath, ['dist/cli/main.js', ...args], {
    cwd: root,
    encoding: 'utf8',
  })
  if (status !== 0 && status !== 1) throw new Error(`overwinter ${args.join(' ')} failed:\n${stderr}`)
  return `# ${title}\n\n${words} This page is what the command prints; \`npm run generate\` makes it anew.\n\n    $ overwinter ${args.join(' ')}\n\n\`\`\`text\n${stdout.trimEnd()}\n\`\`\`\n`
}

const generated: Readonly<Record<string, string>> = {
  'schema/outpost.schema.json': `${JSON.stringify(outpostJsonSchema(), null, 2)}\n`,
  ...(await handoffDocs()),
  'docs/shown/size.md': shown(
    'Sizing the tide hut',
    'The smallest cell and panel for the outpost in the fjord at 58° N.',
    'size',
    HUT,
  ),
  'docs/shown/compare.md': shown(
    'Variants of the tide hut',
    'The variants of the outpost in the fjord, through the same weather.',
    'compare',
    HUT,
  ),
}

const check = process.argv.includes('--check')
for (const [path, text] of Object.entries(generated)) {
  const file = fileURLToPath(new URL(`../${path}`, import.meta.url))
  if (read(file) === text) continue
  if (check) {
    console.error(`${path} is stale: run "npm run generate"`)
    process.exitCode = 1
  } else {
    mkdirSync(dirname(file), { recursive: true })
    writeFileSync(file, text)
    console.log(`wrote ${path}`)
  }
}

function read(file: string): string | null {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    return null
  }
}
