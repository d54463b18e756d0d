/** `overwinter thrift`: intervals by battery voltage, for firmware that slows down when light fails. */
import { thriftToTerminal } from '../report/thrift.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { progressLine } from '../workbench/progress.ts'
import { thriftFile } from '../workbench/thrift.ts'
import { inkFor } from './ink.ts'

export interface ThriftOptions {
  readonly intervals?: readonly number[]
  readonly rows: number
  readonly hysteresis: number
  readonly resolution: number
  readonly offset: number
  readonly survive?: number
  readonly runs?: number
  readonly seed: number
  readonly threads?: number
  readonly weather?: string
  readonly variant?: string
  readonly json?: boolean
}

export async function thriftCommand(file: string, options: ThriftOptions): Promise<void> {
  const environment = readEnvironment()
  const progress = progressLine(environment, 'trials')
  const report = await interruptible((signal) =>
    thriftFile(
      file,
      {
        runs: options.runs ?? null,
        intervals_s: options.intervals ?? null,
        mostRows: options.rows,
        hysteresis_V: options.hysteresis,
        // What is written behind ± is twice the standard deviation.
        converter: { resolution_V: options.resolution, offset_V: options.offset / 2 },
        wanted: options.survive ?? null,
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
  else process.stdout.write(thriftToTerminal(report, inkFor(environment)))
  if (report.table === null || report.confirmed?.table.holds === 'no') process.exitCode = 1
}
