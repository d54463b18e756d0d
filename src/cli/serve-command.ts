/** `overwinter serve`, or `overwinter` alone: opens the workbench on a folder until it is interrupted. */
import { randomBytes } from 'node:crypto'
import { realpathSync, statSync } from 'node:fs'
import { constants } from 'node:os'
import { fileURLToPath } from 'node:url'
import { isOfKind } from '../server/file-kinds.ts'
import { isLoopback } from '../server/hosts.ts'
import { listFolder } from '../server/list-folder.ts'
import { openBrowser } from '../server/open-browser.ts'
import { discardUnchanged, scratchOf } from '../server/scratch.ts'
import { serve } from '../server/serve.ts'
import { LEAST_TOKEN } from '../server/token.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { Refusal } from '../workbench/refusal.ts'

export interface ServeOptions {
  readonly folder?: string
  readonly examples?: boolean
  readonly port: number
  readonly host: string
  /** True where one is to be made. */
  readonly token?: string | true
  readonly open: boolean
}

const EXAMPLES = fileURLToPath(new URL('../../examples', import.meta.url))
const WEB_ROOT = fileURLToPath(new URL('../web', import.meta.url))

export async function serveCommand(options: ServeOptions): Promise<void> {
  const { threads, hasScreen } = readEnvironment()
  const token = tokenOf(options)
  const { folder, isScratch, words } = await folderOf(options)
  process.chdir(folder)
  const served = await serve({
    folder,
    isScratch,
    token,
    threads,
    host: options.host,
    port: options.port,
    webRoot: WEB_ROOT,
    calendarYear: () => new Date().getFullYear(),
    onFault: (error) => process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`),
  })
  const stopped = interruption()
  const [address, ...others] = [served.address, ...served.others].map((each) =>
    token === null ? each : `${each}/?token=${encodeURIComponent(token)}`,
  )
  const moved = options.port === 0 || served.port === options.port ? '' : `Port ${options.port} is used. `
  const fromElsewhere = others.map((each) => `From other machines: ${each}\n`).join('')
  process.stdout.write(
    `${words}\n${moved}The workbench is open at ${address}\n${fromElsewhere}Ctrl-C stops it.\n`,
  )
  if (options.open && hasScreen) openBrowser(address)

  const signal = await stopped
  await served.close()
  if (isScratch && !(await discardUnchanged(folder, EXAMPLES)))
    process.stdout.write(`\nStopped. What you changed is kept in ${folder}\n`)
  else process.stdout.write('\nStopped.\n')
  process.exitCode = 128 + constants.signals[signal]
}

/** The signal that ends it; a second one ends the process at once, as usual. */
function interruption(): Promise<'SIGINT' | 'SIGTERM' | 'SIGHUP'> {
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
  return new Promise((resolve) => {
    const stop = (signal: NodeJS.Signals) => {
      for (const each of signals) process.removeListener(each, stop)
      resolve(signal as (typeof signals)[number])
    }
    for (const each of signals) process.on(each, stop)
  })
}

function tokenOf({ host, token }: ServeOptions): string | null {
  if (token === undefined) {
    if (isLoopback(host)) return null
    throw new Refusal(
      `At ${host} others of the network can reach the workbench, which reads and writes files: it needs a token there.\n  cure: add --token to have one made, or --token with ${LEAST_TOKEN} characters or more of your own`,
    )
  }
  const chosen = token === true ? randomBytes(16).toString('base64url') : token
  if (chosen.length < LEAST_TOKEN)
    throw new Refusal(
      `--token: ${chosen.length} characters could be guessed.\n  expected: ${LEAST_TOKEN} or more\n  cure: give --token alone to have one made`,
    )
  return chosen
}

interface Chosen {
  readonly folder: string
  readonly isScratch: boolean
  /** What is opened, in sentences. */
  readonly words: string
}

async function folderOf({ folder, examples = false }: ServeOptions): Promise<Chosen> {
  const asked = realFolder(folder ?? '.')
  const has = examples
    ? 0
    : (await listFolder(asked)).files.filter(({ file }) => isOfKind('outpost', file)).length
  // A folder that was named is meant, though it be empty: to begin an outpost there.
  if (has > 0 || (folder !== undefined && !examples))
    return {
      folder: asked,
      isScratch: false,
      words: `${asked}: ${has} ${has === 1 ? 'outpost' : 'outposts'}.`,
    }
  const scratch = await scratchOf(EXAMPLES)
  const why = examples
    ? ''
    : `There are no outposts in ${asked}. To begin one there: overwinter serve --folder .\nUntil then `
  return {
    folder: scratch,
    isScratch: true,
    words: `${why}${examples ? 'T' : 't'}hese are the examples, copied to ${scratch}: try what you like.`,
  }
}

function realFolder(path: string): string {
  try {
    const real = realpathSync(path)
    if (statSync(real).isDirectory()) return real
  } catch {}
  throw new Refusal(`${path} is no folder that can be opened. Name one with --folder.`)
}
