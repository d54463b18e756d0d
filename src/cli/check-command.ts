/** `overwinter check`: does this build stay inside its budget; exit code, JSON and JUnit for continuous integration. */
import { checkToTerminal } from '../report/check-report.ts'
import { checkToJunit } from '../report/junit.ts'
import { COLOUR, PLAIN } from '../report/terminal.ts'
import { checkReport } from '../workbench/check.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { refuseOver, writeNamed } from '../workbench/write-named.ts'
import { type MatchOptions, openMatched } from './match-options.ts'

export interface CheckOptions extends MatchOptions {
  readonly slack: number
  readonly cadence?: boolean
  readonly strict?: boolean
  readonly json?: boolean
  readonly junit?: string
}

export async function checkCommand(source: string, file: string, options: CheckOptions): Promise<void> {
  const { outIsTerminal, wantsColour } = readEnvironment()
  const reads = [source, file, options.instrument].filter((path) => path !== undefined)
  if (options.junit !== undefined) refuseOver(options.junit, reads)
  const { open, matched, close } = await openMatched(source, file, options, ['ambiguous'])
  try {
    const strict = options.strict ?? false
    const { slack, cadence = false } = options
    const report = checkReport(file, open.design.outpost, matched, { slack, cadence })
    if (options.junit !== undefined) await writeNamed(options.junit, checkToJunit(report, strict), reads)
    if (options.json) process.stdout.write(`${JSON.stringify(report, null, 2)}\n`)
    else process.stdout.write(checkToTerminal(report, strict, outIsTerminal && wantsColour ? COLOUR : PLAIN))
    const { verdict } = report
    if (verdict === 'fail' || (strict && verdict === 'cannot tell')) process.exitCode = 1
  } finally {
    close()
  }
}
