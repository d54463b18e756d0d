import { linkSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { Refusal } from './refusal.ts'
import { writeNamed } from './write-named.ts'

let folder: string
let input: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'write-named-'))
  input = join(folder, 'bench.csv')
  writeFileSync(input, 'time,current\n')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

describe('a file that a user names', () => {
  it('is written over what stood there', async () => {
    const path = join(folder, 'report.html')
    writeFileSync(path, 'old')
    await writeNamed(path, 'new', [input])
    expect(readFileSync(path, 'utf8')).toBe('new')
  })

  it('is never one that is read, by whatever name it goes', async () => {
    const link = join(folder, 'link.csv')
    symlinkSync(input, link)
    for (const path of [input, link, relative(process.cwd(), input), join(folder, '.', 'bench.csv')]) {
      await expect(writeNamed(path, 'new', ['other.csv', input])).rejects.toThrow(/is what is read/)
      await expect(writeNamed(input, 'new', [path])).rejects.toThrow(Refusal)
    }
    expect(readFileSync(input, 'utf8')).toBe('time,current\n')
  })

  it('may stand beside it: a second name is another file once it is written', async () => {
    const twin = join(folder, 'twin.csv')
    linkSync(input, twin)
    await writeNamed(twin, 'new', [input])
    expect(readFileSync(input, 'utf8')).toBe('time,current\n')
  })

  it('is refused in words where it cannot be written', async () => {
    mkdirSync(join(folder, 'full'))
    await expect(writeNamed(join(folder, 'none', 'a.html'), 'x', [])).rejects.toThrow(/no such folder/)
    await expect(writeNamed(join(folder, 'full'), 'x', [])).rejects.toThrow(Refusal)
  })
})
