import { afterAll, describe, expect, it } from 'vitest'
import { type Bench, benchWith, HOST } from '../../test/workbench-app.ts'
import type { Refused } from '../api/files.ts'

const bench: Bench = benchWith()
afterAll(bench.close)

const status = async (path: string, headers: Record<string, string>, method = 'GET') =>
  (await bench.ask(path, { method, headers })).status

describe('the Host header', () => {
  it.each([HOST, 'LOCALHOST:4848', '127.0.0.1:4848', '[::1]:4848'])('may be %s', async (host) => {
    expect(await status('/api/folder', { host })).toBe(200)
  })

  it.each([
    'localhost',
    'localhost:4849',
    'localhost:4848.',
    'localhost.:4848',
    'evil.example:4848',
    'localhost.evil.example:4848',
    'localhost:4848@evil.example',
    '127.0.0.2:4848',
    '0.0.0.0:4848',
    '2130706433:4848',
    '0x7f.1:4848',
    '[::ffff:127.0.0.1]:4848',
    'localhost:4848, evil.example',
    '*',
  ])('may not be %s', async (host) => {
    const response = await bench.ask('/api/folder', { headers: { host } })
    expect(response.status).toBe(403)
    expect(((await response.json()) as Refused).refused).toMatch(/does not answer under this name/)
  })

  it('is asked of pages, assets and unknown paths alike', async () => {
    for (const path of ['/', '/wake', '/assets/page-Ab12.js', '/nowhere', '/api/nowhere'])
      expect(await status(path, { host: 'evil.example' })).toBe(403)
  })
})

describe('the Origin header', () => {
  it.each([
    [HOST, `http://${HOST}`],
    ['127.0.0.1:4848', 'http://127.0.0.1:4848'],
  ])('may be that of the page itself: %s', async (host, origin) => {
    expect(await status('/api/folder', { host, origin })).toBe(200)
  })

  it.each([
    'null',
    '',
    'http://evil.example',
    'https://localhost:4848',
    'http://localhost:4849',
    'http://127.0.0.1:4848',
    'http://localhost:4848.evil.example',
    'http://localhost:4848/',
    'http://localhost:4848, http://evil.example',
    'file://',
  ])('may not be "%s"', async (origin) => {
    expect(await status('/api/folder', { origin })).toBe(403)
    expect(await status('/', { origin })).toBe(403)
  })

  it('of another site gets no leave to send more', async () => {
    const response = await bench.ask('/api/text', {
      method: 'OPTIONS',
      headers: { origin: 'http://evil.example', 'access-control-request-method': 'PUT' },
    })
    expect(response.status).toBe(403)
    expect([...response.headers.keys()].filter((name) => name.startsWith('access-control'))).toEqual([])
  })
})

describe('Sec-Fetch-Site', () => {
  it.each(['same-origin', 'none'])('%s may ask for anything', async (site) => {
    expect(await status('/api/folder', { 'sec-fetch-site': site })).toBe(200)
  })

  it.each(['cross-site', 'same-site', 'anything'])(
    '%s may follow a link to a page, and no more',
    async (site) => {
      const visit = { 'sec-fetch-site': site, 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'document' }
      expect(await status('/wake', visit)).toBe(200)
      expect(await status('/wake', { ...visit, 'sec-fetch-mode': 'no-cors' })).toBe(403)
      expect(await status('/wake', { ...visit, 'sec-fetch-dest': 'iframe' })).toBe(403)
      expect(await status('/api/folder', visit)).toBe(403)
      expect(await status('/api/work', visit, 'POST')).toBe(403)
      expect(await status('/wake', visit, 'POST')).toBe(403)
      expect(
        await status('/assets/page-Ab12.js', { 'sec-fetch-site': site, 'sec-fetch-mode': 'no-cors' }),
      ).toBe(403)
    },
  )
})

describe('a body', () => {
  it.each([
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data',
    'application/jsonp',
    '',
  ])('of type "%s", which any site could send, is refused', async (type) => {
    const body = JSON.stringify({ file: 'new.outpost.yaml', text: '', before: null })
    expect((await bench.send('PUT', '/api/text', body, { 'content-type': type })).status).toBe(415)
  })

  it('that is no JSON is refused', async () => {
    expect((await bench.send('PUT', '/api/text', '{"file": ')).status).toBe(400)
    expect((await bench.send('PUT', '/api/text', '')).status).toBe(400)
  })

  it('is bounded, whether or not it says its length', async () => {
    const huge = 'x'.repeat(5 << 20)
    expect(
      (await bench.send('PUT', '/api/text', huge, { 'content-length': String(huge.length) })).status,
    ).toBe(413)
    expect((await bench.send('POST', '/api/work', huge)).status).toBe(413)
    const long = { file: 'new.outpost.yaml', text: 'x'.repeat((1 << 20) + 1), before: null }
    expect((await bench.send('PUT', '/api/text', long)).status).toBe(413)
  })
})

describe('every answer', () => {
  it.each(['/', '/nowhere', '/assets/page-Ab12.js', '/api/folder', '/api/nowhere', '/api/text'])(
    'to %s keeps pages from loading, framing or sniffing anything else',
    async (path) => {
      const { headers } = await bench.ask(path)
      const policy = headers.get('content-security-policy')!
      for (const part of [
        "default-src 'none'",
        "script-src 'self';",
        "connect-src 'self'",
        "form-action 'none'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
      ])
        expect(policy).toContain(part)
      expect(policy).not.toMatch(/unsafe|https?:|\*/)
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('referrer-policy')).toBe('no-referrer')
      expect(headers.get('cross-origin-opener-policy')).toBe('same-origin')
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
      expect(headers.get('access-control-allow-origin')).toBeNull()
    },
  )

  it('to a question is not kept by the browser', async () => {
    for (const path of ['/api/folder', '/api/text?file=gauge.outpost.yaml', '/api/nowhere'])
      expect((await bench.ask(path)).headers.get('cache-control')).toBe('no-store')
  })
})
