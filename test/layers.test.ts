import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'

const check = (folder: string) =>
  spawnSync(process.execPath, [resolve('scripts/layers.mjs'), folder], { encoding: 'utf8' })

describe('the layer check', () => {
  let folder: string
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'overwinter-layers-'))
    mkdirSync(join(folder, 'src/numeric'), { recursive: true })
    mkdirSync(join(folder, 'src/wake'))
    cpSync('tsconfig.json', join(folder, 'tsconfig.json'))
    symlinkSync(resolve('node_modules'), join(folder, 'node_modules'))
    writeFileSync(join(folder, 'src/numeric/one.ts'), 'export const one = 1\n')
    writeFileSync(
      join(folder, 'src/wake/two.ts'),
      "import { one } from '../numeric/one.ts'\nexport const two = one + one\n",
    )
  })
  afterEach(() => rmSync(folder, { recursive: true }))

  it('passes what the table allows', () => {
    const { status, stderr } = check(folder)
    expect(stderr).toContain('2 files, 0 problems')
    expect(status).toBe(0)
  })

  it.each([
    [
      'an upward import',
      "import { two } from '../wake/two.ts'\nexport const three = two\n",
      'numeric/ may not import wake/',
    ],
    [
      "Node's own modules in the engine",
      "import { readFileSync } from 'node:fs'\nexport const read = readFileSync\n",
      "may not import Node's own",
    ],
    [
      'a package',
      "import { parse } from 'yaml'\nexport const read = parse\n",
      'may not import the package yaml',
    ],
    [
      'a type from above',
      "import type { two } from '../wake/two.ts'\nexport type Three = typeof two\n",
      'numeric/ may not import wake/',
    ],
  ])('refuses %s', (_, source, message) => {
    writeFileSync(join(folder, 'src/numeric/planted.ts'), source)
    const { status, stderr } = check(folder)
    expect(stderr).toContain(message)
    expect(status).toBe(1)
  })

  it('refuses a folder that is not in the table', () => {
    mkdirSync(join(folder, 'src/elsewhere'))
    writeFileSync(join(folder, 'src/elsewhere/one.ts'), 'export const one = 1\n')
    expect(check(folder).stderr).toContain('its folder is not in the table')
  })
})
