/** The only place that looks at the machine: processors, the terminal, the environment. */
import { availableParallelism } from 'node:os'

export interface Environment {
  readonly threads: number
  /** Whether standard output, and standard error, is a person's terminal. */
  readonly outIsTerminal: boolean
  readonly errIsTerminal: boolean
  /** Colour is not refused (https://no-color.org). */
  readonly wantsColour: boolean
  /** A browser that is started has a screen to appear on. */
  readonly hasScreen: boolean
}

export function readEnvironment(): Environment {
  const { env, stdout, stderr, platform } = process
  return {
    threads: availableParallelism(),
    outIsTerminal: stdout.isTTY === true,
    errIsTerminal: stderr.isTTY === true,
    hasScreen:
      platform === 'win32' ||
      platform === 'darwin' ||
      Boolean(env.DISPLAY || env.WAYLAND_DISPLAY || env.BROWSER),
    wantsColour: (env.NO_COLOR ?? '') === '' && env.TERM !== 'dumb',
  }
}
