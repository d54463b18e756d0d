import { chmodSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Bench, benchWith, GAUGE } from '../../test/workbench-app.ts'
import type { Conflict, FileText, Refused, Saved } from '../api/files.ts'

const FILE = 'gauge.outpost.yaml'
let bench: Bench
/** Who may read and write all. */
const isRoot = process.getuid?.() === 0
beforeEach(() => {
  bench = benchWith({ 'sub/other.outpost.yaml': 'title: ünder\r\n' })
})
afterEach(() => bench.close())

const at = (name: string) => join(bench.folder, name)
const save = async (file: string, text: string, before: string | null) => {
  const response = await bench.send('PUT', '/api/text', { file, text, before })
  return { status: response.status, told: (await response.json()) as Saved & Conflict & Refused }
}

describe('the text of an outpost file', () => {
  it('comes as it is, with a version that follows its bytes', async () => {
    const first = await bench.textOf(FILE)
    expect(first).toEqual({ file: FILE, text: GAUGE, version: first.version })
    writeFileSync(at(FILE), 'another')
    expect((await bench.textOf(FILE)).version).not.toBe(first.version)
    writeFileSync(at(FILE), GAUGE)
    expect((await bench.textOf(FILE)).version).toBe(first.version)
  })

  it('keeps line ends, accents and the mark of the byte order', async () => {
    const text = '\ufefftitle: ü 🜨\r\n'
    writeFileSync(at(FILE), text)
    const read = await bench.textOf(FILE)
    expect(read.text).toBe(text)
    expect((await save(FILE, `${read.text}# more\r\n`, read.version)).status).toBe(200)
    expect(readFileSync(at(FILE), 'utf8')).toBe(`${text}# more\r\n`)
  })

  it('is refused where it is not UTF-8, or no text of that size', async () => {
    writeFileSync(at(FILE), Buffer.from([0x74, 0xff, 0xfe]))
    expect((await bench.ask(`/api/text?file=${FILE}`)).status).toBe(422)
    writeFileSync(at(FILE), 'x'.repeat((1 << 20) + 1))
    expect((await bench.ask(`/api/text?file=${FILE}`)).status).toBe(413)
  })
})

describe('saving', () => {
  it('writes over the version that the text was made from, and answers with the new one', async () => {
    const { version } = await bench.textOf(FILE)
    const { status, told } = await save(FILE, 'title: new\n', version)
    expect(status).toBe(200)
    expect(readFileSync(at(FILE), 'utf8')).toBe('title: new\n')
    expect((await bench.textOf(FILE)).version).toBe(told.version)
  })

  it('never overwrites what someone else wrote: it answers with that', async () => {
    const { version } = await bench.textOf(FILE)
    writeFileSync(at(FILE), 'title: from an editor\n')
    const { status, told } = await save(FILE, 'title: mine\n', version)
    expect(status).toBe(409)
    expect(told.now).toEqual(await bench.textOf(FILE))
    expect(readFileSync(at(FILE), 'utf8')).toBe('title: from an editor\n')
    // What stands there now may be replaced knowingly.
    expect((await save(FILE, 'title: merged\n', told.now!.version)).status).toBe(200)
  })

  it('says so where the file is gone, and leaves it gone', async () => {
    const { version } = await bench.textOf(FILE)
    rmSync(at(FILE))
    expect(await save(FILE, 'title: mine\n', version)).toEqual({ status: 409, told: { now: null } })
    expect(readdirSync(bench.folder)).not.toContain(FILE)
  })

  it('makes a new file, and none where one is', async () => {
    expect((await save('sub/new.outpost.yaml', 'title: new\n', null)).status).toBe(200)
    expect(readFileSync(at('sub/new.outpost.yaml'), 'utf8')).toBe('title: new\n')
    const { status, told } = await save('sub/new.outpost.yaml', 'title: newer\n', null)
    expect([status, told.now?.text]).toEqual([409, 'title: new\n'])
    expect(readFileSync(at('sub/new.outpost.yaml'), 'utf8')).toBe('title: new\n')
  })

  it('does not write through a link whose file is missing', async () => {
    symlinkSync('../planted.outpost.yaml', at('link.outpost.yaml'))
    expect((await save('link.outpost.yaml', 'title: new\n', null)).status).toBe(404)
    expect(readdirSync(join(bench.folder, '..'))).not.toContain('planted.outpost.yaml')
  })

  it('keeps permissions, and what a link inside the folder points to is replaced, not the link', async () => {
    chmodSync(at('sub/other.outpost.yaml'), 0o640)
    symlinkSync('sub/other.outpost.yaml', at('link.outpost.yaml'))
    const { version } = await bench.textOf('link.outpost.yaml')
    expect((await save('link.outpost.yaml', 'title: other\n', version)).status).toBe(200)
    expect(readFileSync(at('sub/other.outpost.yaml'), 'utf8')).toBe('title: other\n')
    expect(statSync(at('sub/other.outpost.yaml')).mode & 0o777).toBe(0o640)
    expect(
      readdirSync(bench.folder, { withFileTypes: true })
        .find(({ name }) => name === 'link.outpost.yaml')!
        .isSymbolicLink(),
    ).toBe(true)
  })

  it('of many at once over one version lets one through, and tells the others', async () => {
    const { version } = await bench.textOf(FILE)
    const texts = Array.from({ length: 12 }, (_, i) => `title: writer ${i}\n`)
    const all = await Promise.all(texts.map((text) => save(FILE, text, version)))
    const won = all.findIndex(({ status }) => status === 200)
    expect(all.filter(({ status }) => status === 200)).toHaveLength(1)
    expect(all.filter(({ status }) => status === 409)).toHaveLength(11)
    expect(readFileSync(at(FILE), 'utf8')).toBe(texts[won])
  })

  it('of many new files of one name makes one', async () => {
    const all = await Promise.all([1, 2, 3, 4].map((i) => save('new.outpost.yaml', `title: ${i}\n`, null)))
    expect(all.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409])
  })

  it('leaves nothing beside the file', async () => {
    const before = readdirSync(bench.folder).sort()
    const { version } = await bench.textOf(FILE)
    await save(FILE, 'title: a\n', version)
    await save(FILE, 'title: b\n', version)
    expect(readdirSync(bench.folder).sort()).toEqual(before)
  })

  it('does not touch a file that holds the text already', async () => {
    const { version } = await bench.textOf(FILE)
    const { ino, mtimeMs } = statSync(at(FILE))
    expect((await save(FILE, GAUGE, version)).told.version).toBe(version)
    expect(statSync(at(FILE))).toMatchObject({ ino, mtimeMs })
  })

  it('says what is wrong with the request', async () => {
    const wrong = [
      {},
      [],
      null,
      7,
      { file: FILE },
      { file: FILE, text: 1, before: null },
      { file: FILE, text: '', before: null, more: 1 },
    ]
    for (const body of wrong) {
      const response = await bench.send('PUT', '/api/text', body)
      expect(response.status).toBe(422)
      expect(((await response.json()) as Refused).refused).toMatch(/is not as it should be/)
    }
    expect((await bench.ask('/api/text')).status).toBe(400)
  })
})

describe('a folder that cannot be written', () => {
  it.skipIf(isRoot)('refuses in a sentence', async () => {
    chmodSync(at('sub'), 0o555)
    const { status, told } = await save('sub/new.outpost.yaml', 'title: new\n', null)
    chmodSync(at('sub'), 0o755)
    expect([status, told.refused]).toEqual([403, expect.stringContaining('permissions')])
  })
})

it('tells texts apart by what they hold, not by when they were written', async () => {
  const { version } = (await bench.textOf(FILE)) satisfies FileText
  expect((await save('copy.outpost.yaml', GAUGE, null)).told.version).toBe(version)
})
