/** The only place that looks at the machine: processors, the terminal, the environment. */
import { availableParallelism } from 'node:os'

export interface Environment {
  readonly threads: number
  /** Whether standard output, and standard error, is a person's terminal. */
  readonly outIsTerminal: boolean
  readonly errIsTerminal: boolean
  /** Colour is wanted on standard output (https://no-color.org). */
  readonly colour: boolean
}

export function readEnvironment(): Environment {
  const { env, stdout, stderr } = process
  const outIsTerminal = stdout.isTTY === true
  return {
    threads: availableParallelism(),
    outIsTerminal,
    errIsTerminal: stderr.isTTY === true,
    colour: outIsTerminal && (env.NO_COLOR ?? '') === '' && env.TERM !== 'dumb',
  }
}
