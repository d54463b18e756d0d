/** Whatever is asked, in whatever way: no answer is our fault, and the next question is answered. */
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { allTold, type Bench, benchWith, GAUGE } from '../../test/workbench-app.ts'

let bench: Bench
beforeAll(() => {
  bench = benchWith({ 'sub/hours.csv': 'time,ghi\n', 'parts.yaml': 'cells: []\n' })
})
afterAll(() => bench.close())

const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'PROPFIND', 'M-SEARCH']
const NAMES = ['gauge.outpost.yaml', 'sub/hours.csv', 'parts.yaml', 'new.outpost.yaml', '..', '']

/** Characters that an address may hold at all; the rest comes encoded. */
const loose = fc.string({ unit: fc.constantFrom(...'abz09/.%:@;,=&?#+~!$()*_-\'"'), maxLength: 20 })
const encoded = fc
  .string({ unit: 'binary', maxLength: 12 })
  .map((text) => encodeURIComponent(text.replace(/\p{Surrogate}/gu, '')))
const route = fc.constantFrom(
  '/',
  '/wake',
  '/assets/page-Ab12.js',
  '/api',
  '/api/folder',
  '/api/text',
  '/api/bytes',
  '/api/events',
  '/api/work',
  '/api/work/stop',
  '/api/uploads',
)
const query = fc.array(
  fc.tuple(
    fc.oneof(fc.constantFrom('file', 'token', '__proto__', 'at'), encoded),
    fc.oneof(fc.constantFrom(...NAMES), encoded, loose),
  ),
  { maxLength: 3 },
)
const path = fc
  .tuple(
    fc.oneof(
      route,
      loose.map((text) => `/${text}`),
      fc.tuple(route, loose).map(([a, b]) => `${a}/${b}`),
    ),
    query,
  )
  .map(
    ([start, pairs]) =>
      start + (pairs.length === 0 ? '' : `?${pairs.map(([name, value]) => `${name}=${value}`).join('&')}`),
  )

const headers = fc.dictionary(
  fc.constantFrom(
    'host',
    'origin',
    'cookie',
    'accept',
    'accept-encoding',
    'content-type',
    'content-length',
    'content-encoding',
    'range',
    'if-none-match',
    'sec-fetch-site',
    'sec-fetch-mode',
    'x-forwarded-host',
    'x-http-method-override',
    'transfer-encoding',
  ),
  fc.oneof(
    fc.constantFrom(
      'localhost:4848',
      'http://localhost:4848',
      'application/json',
      'same-origin',
      'cross-site',
      'navigate',
      '0',
      '-1',
      '1e9',
      'bytes=0-',
      'gzip;q=,br;;',
      '*',
      'overwinter-=;;=',
      'chunked',
    ),
    fc.string({ unit: 'grapheme-ascii', maxLength: 30 }).filter((text) => /^[\x21-\x7e]*$/.test(text)),
  ),
  { maxKeys: 4 },
)

const asked = fc.record(
  {
    work: fc.oneof(
      fc.constantFrom('forecast', 'variants', 'size', 'matters', 'thrift', 'handoff', 'import', 'record'),
      fc.string(),
    ),
    file: fc.oneof(fc.constantFrom(...NAMES), fc.string()),
    text: fc.oneof(fc.string({ unit: 'binary' }), fc.string(), fc.constant('a: &a [*a]')),
    before: fc.oneof(fc.constant(null), fc.string()),
    variant: fc.oneof(fc.constant(null), fc.string()),
    seed: fc.oneof(fc.nat(), fc.double()),
    prefix: fc.string(),
    bcd: fc.boolean(),
    clock: fc.constantFrom('local', 'utc', 'none'),
    wanted: fc.oneof(fc.constant(null), fc.double()),
    partsFile: fc.oneof(fc.constantFrom(null, ...NAMES), fc.string()),
    objective: fc.string(),
    intervals_s: fc.oneof(fc.constant(null), fc.array(fc.double())),
    mostRows: fc.integer(),
  },
  { requiredKeys: [] },
)
const body = fc.oneof(
  asked.map((each) => JSON.stringify(each)),
  fc.json(),
  fc.string({ unit: 'binary' }),
  fc.constant('['.repeat(100_000)),
  fc.constant('{"__proto__":{"file":"a.outpost.yaml"},"constructor":1}'),
)

/** A name that the platform itself does not send (a method or header in error) was not asked. */
async function ask(method: string, address: string, init: RequestInit): Promise<Response | null> {
  try {
    new Request(`http://localhost${address}`, { ...init, method })
  } catch {
    return null
  }
  return bench.ask(address, { ...init, method })
}

describe('any request', () => {
  it('is answered without a fault of ours', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...METHODS),
        path,
        headers,
        body,
        async (method, address, given, content) => {
          const hasBody = method !== 'GET' && method !== 'HEAD'
          const response = await ask(method, address, {
            headers: given,
            ...(hasBody ? { body: content } : {}),
          })
          if (response === null) return
          expect(response.status).toBeLessThan(500)
          expect(response.headers.get('content-security-policy')).toContain("default-src 'none'")
          await response.body?.cancel()
          expect(bench.faults).toEqual([])
        },
      ),
      { numRuns: 1500 },
    )
    expect((await bench.ask('/api/folder')).status).toBe(200)
  })

  it('with a body of the right type is answered without a fault of ours', async () => {
    const target = fc.constantFrom(['PUT', '/api/text'] as const, ['POST', '/api/work'] as const)
    await fc.assert(
      fc.asyncProperty(target, body, async ([method, address], content) => {
        const response = await bench.send(method, address, content)
        expect(response.status).toBeLessThan(500)
        if (response.status === 200 && address === '/api/work')
          for (const told of await allTold(response)) expect(told).not.toMatchObject({ isOurs: true })
        else expect(await response.json()).toBeTypeOf('object')
        expect(bench.faults).toEqual([])
      }),
      { numRuns: 600 },
    )
  })

  it('for work on a text that someone is in the middle of typing says what is wrong with it', async () => {
    const cut = fc.tuple(
      fc.nat({ max: GAUGE.length }),
      fc.nat({ max: 40 }),
      fc.oneof(fc.string({ maxLength: 3 }), fc.constantFrom('-1', '{', '\t', 'null', '1e400')),
    )
    await fc.assert(
      fc.asyncProperty(cut, async ([at, length, typed]) => {
        const text = GAUGE.slice(0, at) + typed + GAUGE.slice(at + length)
        const asked = {
          work: 'forecast',
          file: 'gauge.outpost.yaml',
          text,
          variant: null,
          seed: 1,
          runs: 1,
          years: 1,
        }
        const last = (await allTold(await bench.send('POST', '/api/work', asked))).at(-1)!
        if (last.event === 'refused')
          expect(last).toMatchObject({ isOurs: false, why: expect.stringMatching(/gauge\.outpost\.yaml/) })
        else expect(last.event).toBe('done')
      }),
      { numRuns: 60 },
    )
  })
})
