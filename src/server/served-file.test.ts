import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Bench, benchWith } from '../../test/workbench-app.ts'
import type { Refused } from '../api/files.ts'

let bench: Bench
/** Who may read and write all. */
const isRoot = process.getuid?.() === 0
beforeAll(() => {
  bench = benchWith({
    'sub/wind.epw': 'LOCATION,inside',
    'notes.txt': 'no kind that is served',
    '.hidden/a.csv': 'hidden',
    '.env': 'hidden',
    'node.outpost.yaml/a.csv': 'a folder that is named as a file',
    '50 % sun, 10:00.csv': 'a name with signs in it',
  })
  const at = (name: string) => join(bench.folder, name)
  symlinkSync('sub/wind.epw', at('linked.epw'))
  symlinkSync('../secret.csv', at('out.csv'))
  symlinkSync(join(bench.folder, '..'), at('up'))
  symlinkSync('.hidden', at('shown'))
  symlinkSync('.env', at('env.csv'))
  symlinkSync('notes.txt', at('notes.csv'))
  symlinkSync('/etc/passwd', at('passwd.outpost.yaml'))
  symlinkSync('/dev/zero', at('zero.csv'))
  execFileSync('mkfifo', [at('pipe.csv')])
  writeFileSync(join(bench.folder, '../mine.csv'), 'beside the folder')
  mkdirSync(join(bench.folder, '../mine-too'))
  writeFileSync(join(bench.folder, '../mine-too/a.csv'), 'beside the folder')
})
afterAll(() => bench.close())

const bytes = (query: string) => bench.ask(`/api/bytes?file=${query}`)

describe('a file of the folder', () => {
  it.each([
    ['sub/wind.epw', 'LOCATION,inside'],
    ['linked.epw', 'LOCATION,inside'],
    ['up/mine/sub/wind.epw', 'LOCATION,inside'],
    ['50 % sun, 10:00.csv', 'a name with signs in it'],
  ])('is served: %s', async (name, content) => {
    const response = await bytes(encodeURIComponent(name))
    expect(response.status).toBe(200)
    expect(await response.text()).toBe(content)
  })

  it.skipIf(isRoot)('is not served where its permissions do not allow it', async () => {
    chmodSync(join(bench.folder, 'sub/wind.epw'), 0o000)
    expect((await bytes('sub/wind.epw')).status).toBe(403)
    chmodSync(join(bench.folder, 'sub/wind.epw'), 0o644)
  })
})

/** As written in an address, undecoded. */
const ATTACKS = [
  '../secret.csv',
  '../../secret.csv',
  'sub/../../secret.csv',
  'sub/../wind.csv',
  './secret.csv',
  'sub/./wind.epw',
  '..%2fsecret.csv',
  '%2e%2e/secret.csv',
  '%2e%2e%2fsecret.csv',
  '%252e%252e%252fsecret.csv',
  '%25252e%25252e/secret.csv',
  '..%5csecret.csv',
  '..%255csecret.csv',
  '..\\secret.csv',
  'sub\\wind.epw',
  '..%c0%afsecret.csv',
  '%c0%ae%c0%ae/secret.csv',
  '..%ef%bc%8fsecret.csv',
  '%ef%bc%8e%ef%bc%8e/secret.csv',
  '..;/secret.csv',
  '....//secret.csv',
  '/secret.csv',
  '//secret.csv',
  '/etc/passwd',
  'file:///etc/passwd',
  'C:/secret.csv',
  'C:%5csecret.csv',
  '%5c%5cserver%5cshare%5ca.csv',
  '../mine.csv',
  '../mine-too/a.csv',
  'secret.csv%00.epw',
  'sub/wind.epw%00',
  '%00',
  'sub/wind.epw%0a',
  'sub//wind.epw',
  'sub/wind.epw/',
  '',
  '.',
  '..',
  '%20',
  '~/.ssh/id_rsa.csv',
  '.env',
  '.hidden/a.csv',
  'shown/a.csv',
  'env.csv',
  'out.csv',
  'up/secret.csv',
  'notes.txt',
  'notes.csv',
  'gauge.outpost.yaml',
  'passwd.outpost.yaml',
  'zero.csv',
  'pipe.csv',
  'sub',
  'node.outpost.yaml',
  'a'.repeat(255),
  `${'a'.repeat(300)}.csv`,
  `${'a/'.repeat(600)}b.csv`,
  '%ed%a0%80.csv',
  '%ff%fe.csv',
  '%',
  '%zz.csv',
  '%E0%A4%A.csv',
]

/** As given in JSON. */
const WRITTEN = [
  '../new.outpost.yaml',
  'sub/../../new.outpost.yaml',
  'sub/../new.outpost.yaml',
  './new.outpost.yaml',
  '..\\new.outpost.yaml',
  'sub\\new.outpost.yaml',
  '%2e%2e%2fnew.outpost.yaml',
  'sub%2fnew.outpost.yaml',
  'sub%252fnew.outpost.yaml',
  '/tmp/new.outpost.yaml',
  '//new.outpost.yaml',
  'new.outpost.yaml\0',
  'new\0.outpost.yaml',
  'new\n.outpost.yaml',
  '\ud800.outpost.yaml',
  '.outpost.yaml',
  '.git/new.outpost.yaml',
  '.hidden/new.outpost.yaml',
  'shown/new.outpost.yaml',
  'up/new.outpost.yaml',
  'nowhere/new.outpost.yaml',
  'gauge.outpost.yaml/new.outpost.yaml',
  'pipe.csv/new.outpost.yaml',
  'zero.csv/new.outpost.yaml',
  'passwd.outpost.yaml',
  'node.outpost.yaml',
  'sub',
  'new.yaml',
  'new.csv',
  'package.json',
  'sub/wind.epw',
  '',
  '.',
  '..',
  `${'a'.repeat(300)}.outpost.yaml`,
  `${'a/'.repeat(600)}b.outpost.yaml`,
]

describe('a name that leads elsewhere', () => {
  it.each(ATTACKS)('is refused to whoever reads: %s', async (name) => {
    for (const route of ['bytes', 'text']) {
      if (route === 'text' && name === 'gauge.outpost.yaml') continue
      const response = await bench.ask(`/api/${route}?file=${name}`)
      expect([400, 403, 404]).toContain(response.status)
      const told = (await response.json()) as Refused
      expect(Object.keys(told)).toEqual(['refused'])
      expect(told.refused).toMatch(/^[A-Z].*[.]$|is not served|There is no/s)
      expect(told.refused).not.toContain(bench.folder)
      expect(told.refused).not.toMatch(/\bat \S+:\d+|node:/)
    }
  })

  it.each(WRITTEN)('is refused to whoever writes: %j', async (file) => {
    const before = filesBelow(join(bench.folder, '..'))
    for (const version of [null, 'some version']) {
      const response = await bench.send('PUT', '/api/text', { file, text: 'taken', before: version })
      expect([400, 403, 404, 409]).toContain(response.status)
      if (response.status !== 409) expect(Object.keys((await response.json()) as object)).toEqual(['refused'])
    }
    expect(filesBelow(join(bench.folder, '..'))).toEqual(before)
  })

  it('is no fault of ours', () => expect(bench.faults).toEqual([]))

  it('is refused whatever it is made of', async () => {
    const part = fc.oneof(
      fc.constantFrom(
        '..',
        '.',
        '',
        '~',
        'up',
        'sub',
        'shown',
        '.hidden',
        '%2e%2e',
        '..\\',
        '\0',
        'secret.csv',
        '\u202e',
      ),
      fc.string({ maxLength: 8, unit: 'binary' }),
    )
    await fc.assert(
      fc.asyncProperty(fc.array(part, { minLength: 1, maxLength: 6 }), async (parts) => {
        const response = await bytes(encodeURIComponent(parts.join('/').replace(/\p{Surrogate}/gu, '')))
        if (response.status === 200) expect(await response.text()).toMatch(/inside|a name with signs/)
        else expect([400, 403, 404]).toContain(response.status)
      }),
    )
  })
})

/** Name to content. */
function filesBelow(root: string): Record<string, string> {
  const entries = readdirSync(root, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  )
  return Object.fromEntries(
    entries.map(({ parentPath, name }) => [
      join(parentPath, name),
      readFileSync(join(parentPath, name), 'latin1'),
    ]),
  )
}
