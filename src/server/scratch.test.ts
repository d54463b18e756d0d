import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { discardUnchanged, scratchOf } from './scratch.ts'

const EXAMPLES = resolve('examples')
let folder: string
beforeEach(async () => {
  folder = await scratchOf(EXAMPLES)
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

describe('a scratch copy of the examples', () => {
  it('holds them all', () => {
    expect(readdirSync(folder, { recursive: true }).sort()).toEqual(
      readdirSync(EXAMPLES, { recursive: true }).sort(),
    )
    expect(readFileSync(join(folder, 'parts.yaml'))).toEqual(readFileSync(join(EXAMPLES, 'parts.yaml')))
  })

  it('is removed where nothing was changed, imports aside', async () => {
    mkdirSync(join(folder, '.overwinter/recordings'), { recursive: true })
    expect(await discardUnchanged(folder, EXAMPLES)).toBe(true)
    expect(existsSync(folder)).toBe(false)
  })

  it.each<[string, () => void]>([
    ['a file was changed', () => writeFileSync(join(folder, 'parts.yaml'), 'cells: []')],
    ['a file was made', () => writeFileSync(join(folder, 'mine.outpost.yaml'), 'title: mine')],
    ['a file was removed', () => rmSync(join(folder, 'parts.yaml'))],
  ])('is kept where %s', async (_, change) => {
    change()
    expect(await discardUnchanged(folder, EXAMPLES)).toBe(false)
    expect(existsSync(folder)).toBe(true)
  })
})
