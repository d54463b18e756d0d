/** `overwinter forecast`: the use case, its progress, and where its answers go. */
import { basename, join } from 'node:path'
import type { Forecast } from '../report/forecast.ts'
import { forecastToTerminal } from '../report/terminal.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { forecastFile } from '../workbench/forecast.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { progressLine } from '../workbench/progress.ts'
import { folderNamed, refuseOver, writeNamed } from '../workbench/write-named.ts'
import { inkFor } from './ink.ts'

export interface ForecastOptions {
  readonly years?: number
  readonly runs?: number
  readonly seed: number
  readonly threads?: number
  readonly weather?: string
  readonly steps: 1 | 6
  readonly variant?: string
  readonly json?: boolean
  readonly html?: string
  readonly svg?: string
}

export async function forecastCommand(file: string, options: ForecastOptions): Promise<void> {
  const environment = readEnvironment()
  const reads = [file, options.weather].filter((path) => path !== undefined)
  if (options.html !== undefined) refuseOver(options.html, reads)
  const progress = progressLine(environment, 'runs')
  const forecast = await interruptible((signal) =>
    forecastFile(
      file,
      {
        years: options.years ?? null,
        runs: options.runs ?? null,
        seed: options.seed,
        stepsPerHour: options.steps,
        weather: options.weather ?? null,
        variant: options.variant ?? null,
        calendarYear: new Date().getFullYear(),
        colour: environment.errIsTerminal && environment.wantsColour,
      },
      { threads: options.threads ?? environment.threads, onProgress: progress.show, signal },
    ),
  ).finally(progress.clear)

  if (options.html !== undefined) {
    const { forecastToHtml } = await import('../report/html.ts')
    await writeNamed(options.html, forecastToHtml(forecast), reads)
  }
  if (options.svg !== undefined) await writeFigures(forecast, options.svg, reads)
  if (options.json) process.stdout.write(`${JSON.stringify(forecast, null, 2)}\n`)
  else process.stdout.write(forecastToTerminal(forecast, inkFor(environment)))
  if (options.html !== undefined) process.stderr.write(`Report: ${options.html}\n`)
  if (forecast.outlook.aims.some(({ holds }) => holds === 'no')) process.exitCode = 1
}

async function writeFigures(forecast: Forecast, folder: string, reads: readonly string[]): Promise<void> {
  const { figuresOf } = await import('../report/html.ts')
  await folderNamed(folder)
  const stem = basename(forecast.file).replace(/\.outpost\.ya?ml$/, '')
  for (const { id, svg } of figuresOf(forecast)) {
    const path = join(folder, `${stem}-${id}.svg`)
    await writeNamed(path, svg, reads)
    process.stderr.write(`Figure: ${path}\n`)
  }
}
