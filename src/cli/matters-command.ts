/** `overwinter matters`: which numbers to measure better, and which parts to mend. */
import { mattersToTerminal } from '../report/matters.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { mattersFile } from '../workbench/matters.ts'
import { progressLine } from '../workbench/progress.ts'
import { inkFor } from './ink.ts'

export interface MattersOptions {
  readonly years?: number
  readonly rows?: number
  readonly seed: number
  readonly threads?: number
  readonly weather?: string
  readonly variant?: string
  readonly json?: boolean
}

export async function mattersCommand(file: string, options: MattersOptions): Promise<void> {
  const environment = readEnvironment()
  const progress = progressLine(environment, 'rows')
  const report = await interruptible((signal) =>
    mattersFile(
      file,
      {
        years: options.years ?? null,
        rows: options.rows ?? null,
        seed: options.seed,
        weather: options.weather ?? null,
        variant: options.variant ?? null,
        calendarYear: new Date().getFullYear(),
        colour: environment.errIsTerminal && environment.wantsColour,
      },
      { threads: options.threads ?? environment.threads, onProgress: progress.show, signal },
    ),
  ).finally(progress.clear)
  if (options.json) process.stdout.write(`${JSON.stringify(report, null, 2)}\n`)
  else process.stdout.write(mattersToTerminal(report, inkFor(environment)))
}
