/** `overwinter compare FILE`: the use case, its progress, and where its answers go. */
import { join } from 'node:path'
import { variantsToTerminal } from '../report/variants-terminal.ts'
import { compareVariants } from '../workbench/compare-variants.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { progressLine } from '../workbench/progress.ts'
import { folderNamed, refuseOver, writeNamed } from '../workbench/write-named.ts'
import { inkFor } from './ink.ts'

export interface CompareVariantsOptions {
  readonly years?: number
  readonly runs?: number
  readonly seed: number
  readonly threads?: number
  readonly weather?: string
  readonly json?: boolean
  readonly html?: string
  readonly svg?: string
}

const USUAL_RUNS = 200

/** Exit code 1 where aims are stated and no design is shown to keep all of them. */
export async function compareVariantsCommand(file: string, options: CompareVariantsOptions): Promise<void> {
  const environment = readEnvironment()
  const reads = [file, options.weather].filter((path) => path !== undefined)
  if (options.html !== undefined) refuseOver(options.html, reads)
  const progress = progressLine(environment, 'runs')
  const report = await interruptible((signal) =>
    compareVariants(
      file,
      {
        years: options.years ?? null,
        runs: options.runs ?? USUAL_RUNS,
        seed: options.seed,
        weather: options.weather ?? null,
        stepsPerHour: 1,
        calendarYear: new Date().getFullYear(),
        colour: environment.errIsTerminal && environment.wantsColour,
      },
      { threads: options.threads ?? environment.threads, onProgress: progress.show, signal },
    ),
  ).finally(progress.clear)

  if (options.html !== undefined) {
    const { variantsToHtml } = await import('../report/variants-html.ts')
    await writeNamed(options.html, variantsToHtml(report), reads)
    process.stderr.write(`Report: ${options.html}\n`)
  }
  if (options.svg !== undefined) {
    const { variantFigures } = await import('../report/figure-variants.ts')
    await folderNamed(options.svg)
    for (const { id, svg } of variantFigures(report)) {
      const path = join(options.svg, `variants-${id}.svg`)
      await writeNamed(path, svg, reads)
      process.stderr.write(`Figure: ${path}\n`)
    }
  }
  if (options.json) process.stdout.write(`${JSON.stringify(report, null, 2)}\n`)
  else process.stdout.write(variantsToTerminal(report, inkFor(environment)))
  const asked = report.variants.some(({ outlook }) => outlook.aims.length > 0)
  if (asked && report.keepAllAims.length === 0) process.exitCode = 1
}
