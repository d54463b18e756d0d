import { connect, createServer, type Server } from 'node:net'
import fc from 'fast-check'
import { afterEach, describe, expect, it } from 'vitest'
import { benchWith } from '../../test/workbench-app.ts'
import { type ServeChoices, type Served, serve } from './serve.ts'

const open: { close(): unknown }[] = []
afterEach(async () => {
  for (const each of open.splice(0).reverse()) await each.close()
})

async function served(given: Partial<ServeChoices> = {}): Promise<Served & { readonly faults: unknown[] }> {
  const { folder, close } = benchWith()
  const faults: unknown[] = []
  open.push({ close })
  const server = await serve({
    folder,
    webRoot: `${folder}/../web`,
    isScratch: false,
    token: null,
    threads: 1,
    calendarYear: () => 2026,
    onFault: (error) => faults.push(error),
    host: 'localhost',
    port: 0,
    ...given,
  })
  open.push(server)
  return { ...server, faults }
}

const portOf = ({ address }: Served): number => Number(new URL(address).port)

function occupied(port: number, host: string): Promise<Server> {
  const server = createServer()
  open.push(server)
  return new Promise((resolve) => server.listen(port, host, () => resolve(server)))
}

/** All that comes back for these bytes. */
function raw(port: number, bytes: string | Uint8Array): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1')
    let all = ''
    socket.on('data', (piece) => {
      all += piece.toString('latin1')
    })
    socket.on('error', () => {})
    socket.on('close', () => resolve(all))
    socket.on('connect', () => socket.end(bytes))
  })
}

describe('the server', () => {
  it('answers at both addresses of localhost, and takes another port where either is used', async () => {
    const first = await served()
    const port = portOf(first)
    expect(first.address).toBe(`http://localhost:${port}`)
    expect((await fetch(`http://127.0.0.1:${port}/api/folder`)).status).toBe(200)
    const second = await served({ port })
    expect(portOf(second)).toBeGreaterThan(port)
    const blocked = portOf(second) + 1
    await occupied(blocked, '127.0.0.1')
    expect(portOf(await served({ port: blocked }))).toBeGreaterThan(blocked)
  })

  it('refuses an address that is none of this machine', async () => {
    await expect(served({ host: '192.0.2.7' })).rejects.toThrow(
      /cannot listen at 192\.0\.2\.7.*no such address/,
    )
  })

  it('ends streams and lets go of its port when it closes', async () => {
    const server = await served()
    const events = await fetch(`${server.address}/api/events`)
    await server.close()
    expect(await events.text()).not.toContain('data:')
    await expect(fetch(`${server.address}/api/folder`)).rejects.toThrow()
    await occupied(portOf(server), '127.0.0.1')
  })

  it.each([
    ['no host', 'GET /api/folder HTTP/1.1\r\n\r\n'],
    ['another host', 'GET /api/folder HTTP/1.1\r\nHost: evil.example\r\n\r\n'],
    ['two hosts', 'GET /api/folder HTTP/1.1\r\nHost: localhost:PORT\r\nHost: evil.example\r\n\r\n'],
    [
      'a whole address with another host',
      'GET http://evil.example/api/folder HTTP/1.1\r\nHost: evil.example\r\n\r\n',
    ],
    ['a path that climbs', 'GET /assets/../../secret.csv HTTP/1.1\r\nHost: localhost:PORT\r\n\r\n'],
    [
      'a path that climbs, encoded',
      'GET /assets/%2e%2e/%2e%2e/secret.csv HTTP/1.1\r\nHost: localhost:PORT\r\n\r\n',
    ],
    ['backslashes', 'GET /assets\\..\\..\\secret.csv HTTP/1.1\r\nHost: localhost:PORT\r\n\r\n'],
    ['a tunnel', 'CONNECT evil.example:443 HTTP/1.1\r\nHost: localhost:PORT\r\n\r\n'],
    [
      'another protocol',
      'GET / HTTP/1.1\r\nHost: localhost:PORT\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n\r\n',
    ],
    [
      'lengths that disagree',
      'PUT /api/text HTTP/1.1\r\nHost: localhost:PORT\r\nContent-Length: 3\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n',
    ],
    [
      'a body that never comes',
      'PUT /api/text HTTP/1.1\r\nHost: localhost:PORT\r\nContent-Type: application/json\r\nContent-Length: 50\r\n\r\n{',
    ],
    ['a header without end', `GET / HTTP/1.1\r\nHost: localhost:PORT\r\nX: ${'x'.repeat(40_000)}\r\n\r\n`],
    ['what is no HTTP', '\x16\x03\x01\x02\x00\x01\x00\x01\xfc'],
  ])('gives nothing away and goes on after %s', async (_, request) => {
    const server = await served()
    const answer = await raw(portOf(server), request.replaceAll('PORT', String(portOf(server))))
    expect(answer).not.toMatch(/^HTTP\/1\.1 5|outposts|outside/)
    expect((await fetch(`${server.address}/api/folder`)).status).toBe(200)
    expect(server.faults).toEqual([])
  })

  it('goes on after any bytes', async () => {
    const server = await served()
    const line = fc.constantFrom(
      'GET / HTTP/1.1\r\n',
      'PUT /api/text HTTP/1.1\r\n',
      'Host: localhost\r\n',
      'Content-Length: 9\r\n',
      '\r\n',
    )
    const piece = fc.oneof(
      line.map((text) => Buffer.from(text)),
      fc.uint8Array({ maxLength: 40 }),
    )
    await fc.assert(
      fc.asyncProperty(fc.array(piece, { maxLength: 6 }), async (pieces) => {
        expect(await raw(portOf(server), Buffer.concat(pieces))).not.toMatch(/^HTTP\/1\.1 5/)
      }),
      { numRuns: 150 },
    )
    expect((await fetch(`${server.address}/api/folder`)).status).toBe(200)
    expect(server.faults).toEqual([])
  })

  it('takes no body that is larger than it says it may be', async () => {
    const { address } = await served()
    const body = new ReadableStream({
      pull: (controller) => controller.enqueue(new Uint8Array(1 << 20).fill(0x20)),
    })
    const init = { method: 'PUT', body, duplex: 'half', headers: { 'content-type': 'application/json' } }
    const status = await fetch(`${address}/api/text`, init as RequestInit).then(
      (response) => response.status,
      () => 'cut off',
    )
    expect([413, 'cut off']).toContain(status)
    expect((await fetch(`${address}/api/folder`)).status).toBe(200)
  })
})
