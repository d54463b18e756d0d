import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliCompressSync, gunzipSync } from 'node:zlib'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Bench, benchWith } from '../../test/workbench-app.ts'

let bench: Bench
beforeEach(() => {
  bench = benchWith()
})
afterEach(() => bench.close())

const ASSET = '/assets/page-Ab12.js'

describe('the pages', () => {
  it.each([
    '/',
    '/start',
    '/wake',
    '/supply',
    '/place',
    '/outlook',
    '/choices',
    '/bench',
    '/wake?file=a.outpost.yaml',
  ])('%s is the one document', async (path) => {
    const response = await bench.ask(path)
    expect(response.status).toBe(200)
    expect(response.headers.get('content-type')).toMatch('text/html')
    expect(response.headers.get('cache-control')).toBe('no-store')
    expect(await response.text()).toContain('<title>pages</title>')
  })

  it('carry the nonce of their own policy, another one each time', async () => {
    const nonces = await Promise.all(
      [1, 2, 3].map(async () => {
        const response = await bench.ask('/wake')
        const inPolicy = /style-src 'self' 'nonce-([^']+)'/.exec(
          response.headers.get('content-security-policy')!,
        )![1]
        const inPage = /name="style-nonce" content="([^"]+)"/.exec(await response.text())![1]
        expect(inPage).toBe(inPolicy)
        return inPage
      }),
    )
    expect(new Set(nonces).size).toBe(3)
    for (const nonce of nonces) expect(Buffer.from(nonce, 'base64')).toHaveLength(16)
  })

  it.each([
    '/nowhere',
    '/index.html',
    '/wake/',
    '/wake/more',
    '/assets',
    '/assets/',
    '/favicon.ico',
    '/%2e%2e/secret.csv',
    '/src/web',
  ])('%s is none, and says so in a page', async (path) => {
    const response = await bench.ask(path)
    expect(response.status).toBe(404)
    expect(await response.text()).toContain('There is no such page')
  })

  it('say what to do where they are not built', async () => {
    const unbuilt = benchWith({}, { webRoot: join(bench.folder, 'nowhere') })
    const response = await unbuilt.ask('/')
    expect(response.status).toBe(404)
    expect(await response.text()).toContain('npm run build')
    unbuilt.close()
  })
})

describe('what the pages load', () => {
  it('is kept by the browser for good, and packed for whoever can unpack it', async () => {
    const plain = await bench.ask(ASSET)
    const code = await plain.text()
    expect(plain.headers.get('content-type')).toMatch('text/javascript')
    expect(plain.headers.get('cache-control')).toContain('immutable')
    const packed = await bench.ask(ASSET, { headers: { 'accept-encoding': 'gzip' } })
    expect(packed.headers.get('content-encoding')).toBe('gzip')
    expect(gunzipSync(await packed.arrayBuffer()).toString()).toBe(code)
    expect(packed.headers.get('vary')).toMatch('Accept-Encoding')
  })

  it('is taken packed from beside the file where it is there', async () => {
    const packed = brotliCompressSync('packed before')
    writeFileSync(join(bench.folder, '../web', `${ASSET}.br`), packed)
    const response = await bench.ask(ASSET, { headers: { 'accept-encoding': 'gzip, br' } })
    expect(response.headers.get('content-encoding')).toBe('br')
    expect(Buffer.from(await response.arrayBuffer()).equals(packed)).toBe(true)
    for (const accepted of ['br;q=0, identity', 'identity', 'bro'])
      expect(
        (await bench.ask(ASSET, { headers: { 'accept-encoding': accepted } })).headers.get(
          'content-encoding',
        ),
      ).toBeNull()
  })

  it.each([
    '/assets/none.js',
    '/assets/..%2findex.html',
    '/assets/%2e%2e%2findex.html',
    '/assets/..%5cindex.html',
    '/assets/../index.html',
    '/assets/%2e%2e/%2e%2e/secret.csv',
    '/assets/..%2f..%2fsecret.csv',
    '/assets/.hidden',
    '/assets/page-Ab12.js%00',
    '/assets/page-Ab12.js/',
    '/assets//page-Ab12.js',
    '/assets/%70age-Ab12.js%2f..',
  ])('is nothing else: %s', async (path) => {
    expect((await bench.ask(path)).status).toBe(404)
  })
})
