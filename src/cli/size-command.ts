/** `overwinter size`: the use case, its progress, and where its answers go. */
import { join } from 'node:path'
import { hasAnswer } from '../report/sizing.ts'
import { sizingToTerminal } from '../report/sizing-terminal.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { progressLine } from '../workbench/progress.ts'
import { sizeFile } from '../workbench/size.ts'
import { folderNamed, refuseOver, writeNamed } from '../workbench/write-named.ts'
import { inkFor } from './ink.ts'

export interface SizeOptions {
  readonly survive?: number
  readonly years?: number
  readonly runs?: number
  readonly seed: number
  readonly threads?: number
  readonly variant?: string
  readonly weather?: string
  readonly cells?: readonly number[]
  readonly panels?: readonly number[]
  readonly intervals?: readonly number[]
  readonly parts?: string
  readonly objective: string
  readonly json?: boolean
  readonly html?: string
  readonly svg?: string
}

/** Exit code 1 where nothing that was looked at suffices. */
export async function sizeCommand(file: string, options: SizeOptions): Promise<void> {
  const environment = readEnvironment()
  const reads = [file, options.parts, options.weather].filter((path) => path !== undefined)
  if (options.html !== undefined) refuseOver(options.html, reads)
  const progress = progressLine(environment, 'runs of designs')
  const report = await interruptible((signal) =>
    sizeFile(
      file,
      {
        variant: options.variant ?? null,
        wanted: options.survive ?? null,
        years: options.years ?? null,
        runs: options.runs ?? null,
        seed: options.seed,
        stepsPerHour: 1,
        calendarYear: new Date().getFullYear(),
        weather: options.weather ?? null,
        axes: {
          capacities_C: options.cells ?? null,
          powers_W: options.panels ?? null,
          intervals_s: options.intervals ?? null,
        },
        partsFile: options.parts ?? null,
        objective: options.objective,
        colour: environment.errIsTerminal && environment.wantsColour,
      },
      { threads: options.threads ?? environment.threads, onProgress: progress.show, signal },
    ),
  ).finally(progress.clear)

  if (options.html !== undefined) {
    const { sizingToHtml } = await import('../report/sizing-html.ts')
    await writeNamed(options.html, sizingToHtml(report), reads)
    process.stderr.write(`Report: ${options.html}\n`)
  }
  if (options.svg !== undefined) {
    const { frontierFigure } = await import('../report/figure-frontier.ts')
    const figure = frontierFigure(report)
    await folderNamed(options.svg)
    const path = join(options.svg, 'frontier.svg')
    if (figure === null) process.stderr.write('Without a panel there is no frontier to draw.\n')
    else {
      await writeNamed(path, figure.svg, reads)
      process.stderr.write(`Figure: ${path}\n`)
    }
  }
  if (options.json) process.stdout.write(`${JSON.stringify(report, null, 2)}\n`)
  else process.stdout.write(sizingToTerminal(report, inkFor(environment)))
  if (!hasAnswer(report)) process.exitCode = 1
}
