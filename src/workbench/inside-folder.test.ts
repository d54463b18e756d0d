import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { insideFolder } from './inside-folder.ts'
import { openDesign } from './open-design.ts'

let root: string
let folder: string
beforeAll(() => {
  root = realpathSync(mkdtempSync(join(tmpdir(), 'overwinter-fence-')))
  folder = join(root, 'mine')
  mkdirSync(join(folder, 'sub'), { recursive: true })
  mkdirSync(join(folder, '.git'))
  mkdirSync(join(root, 'mine too'))
  writeFileSync(join(folder, 'a.csv'), 'inside')
  writeFileSync(join(folder, '.git/config'), 'hidden')
  writeFileSync(join(root, 'secret'), 'outside')
  writeFileSync(join(root, 'mine too/b.csv'), 'outside, and its name begins alike')
  symlinkSync('../a.csv', join(folder, 'sub/link.csv'))
  symlinkSync('../secret', join(folder, 'out.csv'))
  symlinkSync('..', join(folder, 'up'))
  symlinkSync('.git/config', join(folder, 'config.csv'))
  symlinkSync('loop.csv', join(folder, 'loop.csv'))
  symlinkSync('nowhere.csv', join(folder, 'dangling.csv'))
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

describe('the fence around a folder', () => {
  it.each(['a.csv', 'sub/../a.csv', 'sub/link.csv', './/a.csv'])('leads %s to the file', (path) => {
    expect(insideFolder(folder, path)).toEqual({ is: 'file', path: join(folder, 'a.csv') })
  })

  it('tells a folder from a file', () => {
    expect(insideFolder(folder, 'sub')).toEqual({ is: 'folder', path: join(folder, 'sub') })
  })

  it('bars a pipe', () => {
    execFileSync('mkfifo', [join(folder, 'pipe.csv')])
    expect(insideFolder(folder, 'pipe.csv')).toEqual({ is: 'barred' })
  })

  it.each(['none.csv', 'a.csv/b', 'dangling.csv', `${'x'.repeat(5000)}.csv`])(
    'finds nothing at %s',
    (path) => {
      expect(insideFolder(folder, path)).toEqual({ is: 'missing' })
    },
  )

  it.each([
    ['the folder itself', '.'],
    ['its parent', '..'],
    ['what lies beside it', '../secret'],
    ['a folder whose name begins alike', '../mine too/b.csv'],
    ['an absolute path', '/etc/hostname'],
    ['a link out', 'out.csv'],
    ['a link of a folder out', 'up/secret'],
    ['a hidden folder', '.git/config'],
    ['a link into a hidden folder', 'config.csv'],
    ['links in a circle', 'loop.csv'],
    ['a NUL', 'a.csv\0.yaml'],
  ])('bars %s', (_, path) => expect(insideFolder(folder, path)).toEqual({ is: 'barred' }))

  it('stands also where the folder is itself reached by a link', () => {
    symlinkSync('mine', join(root, 'called'))
    expect(insideFolder(join(root, 'called'), 'a.csv').is).toBe('file')
    expect(insideFolder(join(root, 'called'), 'out.csv').is).toBe('barred')
  })
})

describe('an outpost by its text', () => {
  const naming = (file: string) => ({
    path: 'gauge.outpost.yaml',
    folder,
    text: `overwinter: 1\ntitle: gauge\nplace: { weather: { file: "${file}" } }\n`,
  })

  it.each(['../secret', '.git/config', 'out.csv'])('is refused when it names %s', async (file) => {
    await expect(openDesign(naming(file), null, false)).rejects.toThrow(
      `gauge.outpost.yaml names the file "${file}", which is not for the workbench to read`,
    )
  })

  it('says which file is missing as a diagnostic with its place', async () => {
    await expect(openDesign(naming('none.epw'), null, false)).rejects.toThrow(/gauge\.outpost\.yaml:\d+:\d+/)
  })
})
