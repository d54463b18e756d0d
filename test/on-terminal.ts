/** Runs the command line on a pseudo-terminal, which Python opens, as a person at a keyboard would. */
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { MAIN } from './run-cli.ts'

export const hasTerminals =
  spawnSync('python3', ['-c', 'import pty, tty']).status === 0 &&
  spawnSync('stty', ['--version']).error === undefined
if (!hasTerminals) console.warn('skipped: there is no Python with pseudo-terminals, or no stty, here')

export interface Session {
  /** All that has been shown. */
  readonly shown: () => string
  /** Waits until a text is shown. */
  readonly until: (wanted: RegExp) => Promise<void>
  readonly type: (text: string) => void
  /** Waits for the end; the exit code. */
  readonly done: Promise<number>
}

export function onTerminal(folder: string, ...args: string[]): Session {
  const spawnOnTerminal = 'import pty, sys; sys.exit(pty.spawn(sys.argv[1:]) >> 8)'
  const child = spawn('python3', ['-c', spawnOnTerminal, process.execPath, MAIN, ...args], { cwd: folder })
  let shown = ''
  child.stdout.on('data', (chunk) => {
    shown += chunk
  })
  return {
    shown: () => shown,
    until: async (wanted) => {
      while (!wanted.test(shown)) {
        if (child.exitCode !== null) throw new Error(`it ended without ${wanted}:\n${shown}`)
        await new Promise((resolve) => setTimeout(resolve, 20))
      }
    },
    type: (text) => void child.stdin.write(text),
    done: once(child, 'close').then(([code]) => code as number),
  }
}
