/** A folder of outposts and the server's app over it, as tests want them; nothing listens. */
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import type { FileText } from '../src/api/files.ts'
import type { Told } from '../src/api/work.ts'
import { appFor } from '../src/server/app.ts'
import type { Setting } from '../src/server/setting.ts'

export const HOST = 'localhost:4848'
export const GAUGE = readFileSync('examples/river-ford.outpost.yaml', 'utf8')

export interface Bench {
  readonly folder: string
  /** What went wrong through our own fault. */
  readonly faults: unknown[]
  readonly ask: (path: string, init?: RequestInit) => Promise<Response>
  readonly send: (
    method: string,
    path: string,
    body: unknown,
    headers?: Record<string, string>,
  ) => Promise<Response>
  readonly textOf: (file: string) => Promise<FileText>
  readonly close: () => void
}

/** With `gauge.outpost.yaml`, and `files` by name. What a test adds stands beside the folder's own `secret.csv`. */
export function benchWith(
  files: Readonly<Record<string, string | Uint8Array>> = {},
  given: Partial<Setting> = {},
): Bench {
  const root = realpathSync(mkdtempSync(join(tmpdir(), 'overwinter-bench-')))
  const folder = join(root, 'mine')
  const webRoot = join(root, 'web')
  const all = {
    'secret.csv': 'outside',
    'mine/gauge.outpost.yaml': GAUGE,
    'web/index.html': '<!doctype html><meta name="style-nonce" content="__NONCE__" /><title>pages</title>',
    'web/assets/page-Ab12.js': `export const page = ${JSON.stringify('x'.repeat(3000))}`,
    ...Object.fromEntries(Object.entries(files).map(([name, content]) => [`mine/${name}`, content])),
  }
  for (const [name, content] of Object.entries(all)) {
    mkdirSync(dirname(join(root, name)), { recursive: true })
    writeFileSync(join(root, name), content)
  }
  const closing = new AbortController()
  const faults: unknown[] = []
  const app = appFor({
    folder,
    webRoot,
    isScratch: false,
    token: null,
    hosts: new Set([HOST, '127.0.0.1:4848', '[::1]:4848']),
    threads: 1,
    calendarYear: () => 2026,
    closing: closing.signal,
    onFault: (error) => faults.push(error),
    ...given,
  })
  const ask: Bench['ask'] = async (path, init = {}) => {
    const headers = new Headers(init.headers)
    if (!headers.has('host')) headers.set('host', HOST)
    return app.request(path, { ...init, headers })
  }
  return {
    folder,
    faults,
    ask,
    send: (method, path, body, headers = {}) =>
      ask(path, {
        method,
        headers: { 'content-type': 'application/json', ...headers },
        body: typeof body === 'string' ? body : JSON.stringify(body),
      }),
    textOf: async (file) =>
      (await ask(`/api/text?file=${encodeURIComponent(file)}`)).json() as Promise<FileText>,
    close: () => {
      closing.abort()
      rmSync(root, { recursive: true, force: true })
    },
  }
}

/** What an answer tells, event by event. */
export async function* toldBy<T = Told>(response: Response): AsyncGenerator<T> {
  let rest = ''
  for await (const piece of response.body!.pipeThrough(new TextDecoderStream())) {
    const events = (rest + piece).split('\n\n')
    rest = events.pop()!
    for (const event of events) if (event.startsWith('data: ')) yield JSON.parse(event.slice(6)) as T
  }
}

export async function allTold(response: Response): Promise<Told[]> {
  const told: Told[] = []
  for await (const event of toldBy(response)) told.push(event)
  return told
}
