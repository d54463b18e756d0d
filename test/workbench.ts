/** The built workbench over a folder of its own, and a real browser in front of it. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { type Browser, chromium, type Page } from 'playwright-core'
import { launchOptions } from './browser.ts'
import { MAIN } from './run-cli.ts'

export interface Workbench {
  readonly folder: string
  readonly url: string
  readonly browser: Browser
  /** A page of its own context: desktop and light where not said otherwise. */
  readonly open: (address: string, options?: Parameters<Browser['newPage']>[0]) => Promise<Page>
  /** Hosts that pages asked for anything, beside the workbench itself. */
  readonly strangers: ReadonlySet<string>
  /** What pages complained of: errors of scripts, refused by the content-security policy, and so on. */
  readonly complaints: readonly string[]
  readonly serverPid: () => number
  readonly stopServer: () => Promise<void>
  /** On the port that it had. */
  readonly startServer: () => Promise<void>
  readonly close: () => Promise<void>
}

/** `examples` by name are copied into the folder, `files` by name written there. */
export async function openWorkbench({
  examples = [],
  files = {},
}: {
  readonly examples?: readonly string[]
  readonly files?: Readonly<Record<string, string | Uint8Array>>
}): Promise<Workbench> {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'overwinter-pages-')))
  for (const name of examples) cpSync(join('examples', name), join(folder, name), { recursive: true })
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true })
    writeFileSync(join(folder, name), content)
  }
  let server = await serverOn(folder, 0)
  const { port } = server
  const url = `http://localhost:${port}`
  const browser = await chromium.launch(launchOptions())
  const strangers = new Set<string>()
  const complaints: string[] = []
  return {
    folder,
    url,
    browser,
    strangers,
    complaints,
    async open(address, options = {}) {
      const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, ...options })
      page.on('request', (request) => {
        const { host, protocol } = new URL(request.url())
        if (host !== `localhost:${port}` && protocol !== 'data:' && protocol !== 'blob:') strangers.add(host)
      })
      page.on('pageerror', (error) => complaints.push(error.message))
      page.on('console', (message) => {
        const text = message.text()
        if (message.type() === 'error' && !/Failed to load resource|ERR_CONNECTION/.test(text))
          complaints.push(text)
      })
      await page.goto(url + address)
      return page
    },
    serverPid: () => server.child.pid ?? 0,
    async stopServer() {
      await stopped(server.child)
    },
    async startServer() {
      server = await serverOn(folder, port)
    },
    async close() {
      await browser.close()
      await stopped(server.child)
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

async function serverOn(folder: string, port: number): Promise<{ child: ChildProcess; port: number }> {
  const child = spawn(process.execPath, [
    MAIN,
    'serve',
    '--folder',
    folder,
    '--port',
    String(port),
    '--no-open',
  ])
  let shown = ''
  const found = await new Promise<number>((resolve, reject) => {
    const listen = (chunk: Buffer) => {
      shown += chunk
      const address = /http:\/\/localhost:(\d+)/.exec(shown)
      if (address !== null) resolve(Number(address[1]))
    }
    child.stdout.on('data', listen)
    child.stderr.on('data', listen)
    child.once('exit', () => reject(new Error(`the workbench did not start: ${shown}`)))
  })
  return { child, port: found }
}

async function stopped(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const ended = once(child, 'exit')
  child.kill('SIGINT')
  await ended
}

/** What axe finds, as sentences, on the page as it stands. Its script comes by the debugger, past the page's policy. */
export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(readFileSync('node_modules/axe-core/axe.min.js', 'utf8'))
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> }
    }
    const { violations } = await axe.run()
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`))
  })
}
