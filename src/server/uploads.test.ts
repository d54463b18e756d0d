/** Files in pieces: whole or not at all, never over another, and nothing left of what was dropped. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Bench, benchWith } from '../../test/workbench-app.ts'
import type { UploadBegun } from '../api/bench.ts'
import type { Refused } from '../api/files.ts'

let bench: Bench
beforeEach(() => {
  bench = benchWith({ 'there.csv': 'mine' })
})
afterEach(() => bench.close())

const begin = (name: string, bytes: number) => bench.send('POST', '/api/uploads', { name, bytes })
const begun = async (name: string, bytes: number) => (await (await begin(name, bytes)).json()) as UploadBegun
const put = (id: string, at: number | string, piece: Uint8Array<ArrayBuffer> | string, headers = {}) =>
  bench.ask(`/api/uploads/${id}?at=${at}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/octet-stream', ...headers },
    body: piece,
  })
const done = (id: string) => bench.ask(`/api/uploads/${id}/done`, { method: 'POST' })
const drop = (id: string) => bench.ask(`/api/uploads/${id}`, { method: 'DELETE' })
const refusal = async (response: Response) => ((await response.json()) as Refused).refused
const temporary = () => {
  const home = join(bench.folder, '.overwinter/uploads')
  return existsSync(home) ? readdirSync(home) : []
}
const visible = () => readdirSync(bench.folder).filter((name) => !name.startsWith('.'))

async function upload(name: string, text: string): Promise<string> {
  const { id } = await begun(name, text.length)
  await put(id, 0, text)
  return ((await (await done(id)).json()) as { file: string }).file
}

describe('an upload', () => {
  it('is the bytes that were sent, cut into any pieces', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uint8Array({ maxLength: 5000 }),
        fc.array(fc.integer({ min: 1, max: 2000 }), { minLength: 1, maxLength: 8 }),
        async (bytes, lengths) => {
          const { id } = await begun('piece.npy', bytes.length)
          for (let at = 0, k = 0; at < bytes.length; k++) {
            const piece = bytes.slice(at, at + lengths[k % lengths.length])
            const answer = await (await put(id, at, piece)).json()
            at += piece.length
            expect(answer).toEqual({ received: at })
          }
          const { file } = (await (await done(id)).json()) as { file: string }
          expect(new Uint8Array(readFileSync(join(bench.folder, file)))).toEqual(bytes)
        },
      ),
      { numRuns: 20, seed: 1 },
    )
    expect(temporary()).toEqual([])
  })

  it('is not in the folder before it is whole', async () => {
    const { id } = await begun('slow.csv', 6)
    await put(id, 0, 'abc')
    expect(visible()).toEqual(['gauge.outpost.yaml', 'there.csv'])
    expect((await done(id)).status).toBe(422)
    await put(id, 3, 'def')
    await done(id)
    expect(readFileSync(join(bench.folder, 'slow.csv'), 'utf8')).toBe('abcdef')
  })

  it('never goes over another file, but under a number', async () => {
    expect(await upload('there.csv', 'a')).toBe('there-2.csv')
    expect(await upload('there.csv', 'b')).toBe('there-3.csv')
    expect(await upload('new.csv.gz', 'c')).toBe('new.csv.gz')
    expect(await upload('new.csv.gz', 'd')).toBe('new-2.csv.gz')
    expect(readFileSync(join(bench.folder, 'there.csv'), 'utf8')).toBe('mine')
    expect(readFileSync(join(bench.folder, 'there-3.csv'), 'utf8')).toBe('b')
  })

  it('of two at once under one name loses neither', async () => {
    const [a, b] = await Promise.all([upload('same.csv', 'a'), upload('same.csv', 'b')])
    expect([a, b].sort()).toEqual(['same-2.csv', 'same.csv'])
    expect([a, b].map((file) => readFileSync(join(bench.folder, file), 'utf8'))).toEqual(['a', 'b'])
  })

  it('of a table of text by another ending is called what it is', async () => {
    expect(await upload('LOG0001.TXT', 'a')).toBe('LOG0001.TXT.csv')
    expect(await upload('bench.log.gz', 'a')).toBe('bench.log.csv.gz')
  })

  it('tells where it is, so that it can go on after a broken connection', async () => {
    const { id } = await begun('slow.csv', 6)
    await put(id, 0, 'abc')
    expect(await (await bench.ask(`/api/uploads/${id}`)).json()).toEqual({ received: 3 })
    const twice = await put(id, 0, 'abc')
    expect(twice.status).toBe(422)
    expect(await refusal(twice)).toBe('The next piece begins at byte 3, not at 0.')
  })

  it('that is dropped leaves nothing', async () => {
    const { id } = await begun('slow.csv', 6)
    await put(id, 0, 'abc')
    expect(temporary()).toHaveLength(1)
    expect((await drop(id)).status).toBe(200)
    expect(temporary()).toEqual([])
    expect(visible()).toEqual(['gauge.outpost.yaml', 'there.csv'])
    expect((await put(id, 3, 'def')).status).toBe(404)
    expect((await drop(id)).status).toBe(200)
  })

  it('that a killed server left is cleared by the next one', async () => {
    const home = join(bench.folder, '.overwinter/uploads')
    mkdirSync(home, { recursive: true })
    writeFileSync(join(home, '999999999-left'), 'half')
    const { id } = await begun('a.csv', 1)
    expect(temporary()).toHaveLength(1)
    expect(temporary()[0]).toContain(id)
  })
})

describe('what is refused', () => {
  it.each([
    '../a.csv',
    'sub/a.csv',
    '/etc/a.csv',
    '..\\a.csv',
    '.hidden.csv',
    'a\u0001.csv',
    'a%2f.csv',
    'gauge.outpost.yaml',
    'run.sh',
    'a.csv.exe',
    '',
    '.csv',
    `${'x'.repeat(300)}.csv`,
  ])('a name like %s', async (name) => {
    expect([400, 403]).toContain((await begin(name, 1)).status)
    expect(temporary()).toEqual([])
  })

  it('more than was announced, and pieces out of order', async () => {
    const { id } = await begun('a.csv', 4)
    expect((await put(id, 0, 'abcde')).status).toBe(413)
    expect((await put(id, 2, 'cd')).status).toBe(422)
    expect((await put(id, 'x', 'ab')).status).toBe(422)
    expect((await put(id, -1, 'ab')).status).toBe(422)
    expect((await put(id, 0.5, 'ab')).status).toBe(422)
    expect((await put(id, 0, 'ab')).status).toBe(200)
  })

  it('a piece that is too large, whether or not it says its length', async () => {
    const { id, pieceBytes } = await begun('a.npy', 1e9)
    const large = new Uint8Array(pieceBytes + 1)
    expect((await put(id, 0, large)).status).toBe(413)
    expect((await put(id, 0, large, { 'content-length': String(large.length) })).status).toBe(413)
    expect((await put(id, 0, large.slice(1))).status).toBe(200)
  })

  it('a piece that any site could send, and an id that nobody was given', async () => {
    const { id } = await begun('a.csv', 4)
    expect((await put(id, 0, 'abcd', { 'content-type': 'text/plain' })).status).toBe(415)
    expect((await put('nobody', 0, 'abcd')).status).toBe(404)
    expect((await done('../../../x')).status).toBe(404)
  })

  it('what the disk has no room for, and sizes that are none', async () => {
    expect(await refusal(await begin('a.csv', 1e15))).toMatch(
      /has 1000000000000000 bytes, and the disk has room/,
    )
    for (const bytes of [-1, 1.5, 1e300]) expect((await begin('a.csv', bytes)).status).toBe(422)
  })

  it('more files at once than anyone sends by hand', async () => {
    for (let k = 0; k < 8; k++) expect((await begin(`${k}.csv`, 1)).status).toBe(200)
    expect((await begin('9.csv', 1)).status).toBe(422)
  })
})

it('leaves nothing when the server stops', async () => {
  const closing = new AbortController()
  const ending = benchWith({}, { closing: closing.signal })
  await ending.send('POST', '/api/uploads', { name: 'slow.csv', bytes: 6 })
  const home = join(ending.folder, '.overwinter/uploads')
  const [name] = readdirSync(home)
  closing.abort()
  while (existsSync(join(home, name))) await new Promise((wait) => setTimeout(wait, 5))
  ending.close()
})
