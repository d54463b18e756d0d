import {
  chmodSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, it } from 'vitest'
import { Refusal } from './refusal.ts'
import { replaceFile } from './replace-file.ts'

const folder = mkdtempSync(join(tmpdir(), 'overwinter-replace-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

it('replaces a file behind a link, and keeps its permissions', async () => {
  const path = join(folder, 'a')
  const link = join(folder, 'link')
  writeFileSync(path, 'before')
  chmodSync(path, 0o640)
  symlinkSync('a', link)
  await replaceFile(link, 'before', 'after')
  expect(readFileSync(path, 'utf8')).toBe('after')
  expect(statSync(path).mode & 0o777).toBe(0o640)
  expect(lstatSync(link).isSymbolicLink()).toBe(true)
})

it('leaves a file alone that has changed meanwhile, and leaves nothing beside it', async () => {
  const path = join(folder, 'b')
  writeFileSync(path, 'somebody else')
  await expect(replaceFile(path, 'before', 'after')).rejects.toThrow(Refusal)
  expect(readFileSync(path, 'utf8')).toBe('somebody else')
  expect(readdirSync(folder).filter((name) => name.startsWith('b'))).toEqual(['b'])
})
