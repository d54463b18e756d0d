/** `overwinter handoff`: writes what firmware needs, and shows the tables and what to shut down before each rest. */
import { COLOUR, PLAIN } from '../report/terminal.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { handoffFile, writeHandoff } from '../workbench/handoff.ts'
import { handoffToTerminal } from '../workbench/handoff-text.ts'

export interface HandoffOptions {
  readonly out: string
  readonly prefix: string
  readonly bcd?: boolean
  readonly clock: 'local' | 'utc'
  readonly seed: number
  readonly variant?: string
  readonly json?: boolean
}

export async function handoffCommand(file: string, options: HandoffOptions): Promise<void> {
  const { errIsTerminal, outIsTerminal, wantsColour } = readEnvironment()
  const made = await handoffFile(file, {
    prefix: options.prefix,
    bcd: options.bcd ?? false,
    clock: options.clock === 'utc' ? 'UTC' : 'local time',
    seed: options.seed,
    variant: options.variant ?? null,
    calendarYear: new Date().getFullYear(),
    colour: errIsTerminal && wantsColour,
  })
  const written = await writeHandoff(options.out, made)
  if (options.json) process.stdout.write(`${JSON.stringify(made.handoff, null, 2)}\n`)
  else process.stdout.write(handoffToTerminal(made.handoff, outIsTerminal && wantsColour ? COLOUR : PLAIN))
  for (const path of written) process.stderr.write(`Wrote ${path}\n`)
}
