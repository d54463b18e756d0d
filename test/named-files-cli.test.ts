/** Files that a command is told to write: never over what it reads, and in words where they cannot be written. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { overwinterIn } from './run-cli.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'named-'))
  copyFileSync('examples/avalanche-snow-depth.outpost.yaml', join(folder, 'snow.outpost.yaml'))
  copyFileSync('examples/recordings/snow-depth-build-41.csv.gz', join(folder, 'build.csv.gz'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const RECORDING = 'build.csv.gz'
const OUTPOST = 'snow.outpost.yaml'

describe.each([
  ['read', RECORDING, '--html', RECORDING],
  ['check', RECORDING, OUTPOST, '--junit', OUTPOST],
  ['forecast', OUTPOST, '--runs', '1', '--html', `./${OUTPOST}`],
  ['size', OUTPOST, '--html', OUTPOST],
  ['compare', OUTPOST, '--html', OUTPOST],
])('%s %s', (...args) => {
  const [target] = args.slice(-1)
  it(`writes nothing over ${target}, which it reads`, () => {
    const before = readFileSync(join(folder, target))
    const { code, out, err } = overwinterIn(folder, ...args)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain('is what is read, and would be lost')
    expect(readFileSync(join(folder, target)).equals(before)).toBe(true)
  })
})

it.each([
  ['read', RECORDING, '--html', 'none/a.html'],
  ['check', RECORDING, OUTPOST, '--junit', 'none/a.xml'],
  ['forecast', OUTPOST, '--runs', '1', '--years', '1', '--html', 'none/a.html'],
  ['forecast', OUTPOST, '--runs', '1', '--years', '1', '--svg', OUTPOST],
])('%s %s says why %s cannot be written there', (...args) => {
  const { code, err } = overwinterIn(folder, ...args)
  expect(code).toBe(2)
  expect(err).toMatch(/cannot be written: (there is no such folder|a file of that name is there)\./)
})
