// `npm run generate`: writes the files that are made from code. With --check: writes nothing, exits 1 where one is stale.
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { outpostJsonSchema } from '../src/outpost/file/schema.ts'

const generated: Readonly<Record<string, () => string>> = {
  'schema/outpost.schema.json': () => `${JSON.stringify(outpostJsonSchema(), null, 2)}\n`,
}

const check = process.argv.includes('--check')
for (const [path, make] of Object.entries(generated)) {
  const file = fileURLToPath(new URL(`../${path}`, import.meta.url))
  const text = make()
  if (read(file) === text) continue
  if (check) {
    console.error(`${path} is stale: run "npm run generate"`)
    process.exitCode = 1
  } else {
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
