/** `overwinter compare A B`: two recordings read, compared, and played through an outpost where one is given. */
import { comparisonToTerminal } from '../report/recording-comparison-terminal.ts'
import { compareRecordings } from '../workbench/compare-recordings.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { openInstrument } from '../workbench/instrument-file.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { openDesign } from '../workbench/open-design.ts'
import { progressLine } from '../workbench/progress.ts'
import { readRecording } from '../workbench/read-recording.ts'
import { inkFor } from './ink.ts'
import { findingStates, openShown } from './open-shown.ts'
import { readChoices, type SourceOptions } from './source-options.ts'

export interface CompareRecordingsOptions extends SourceOptions {
  readonly file?: string
  readonly instrument?: string
  readonly years?: number
  readonly runs?: number
  readonly seed: number
  readonly threads?: number
  readonly json?: boolean
}

const USUAL_RUNS = 200

export async function compareRecordingsCommand(
  before: string,
  after: string,
  options: CompareRecordingsOptions,
): Promise<void> {
  const environment = readEnvironment()
  const colour = environment.errIsTerminal && environment.wantsColour
  const instrument =
    options.instrument === undefined ? null : await openInstrument(options.instrument, colour)
  const open = options.file === undefined ? null : await openDesign(options.file, null, colour)
  const readOne = async (file: string) => {
    const recording = await openShown(file, readChoices(options), false)
    try {
      const choices = { span: {}, voltage_V: null, instrument, marks: [] }
      return findingStates(environment, recording.header.samples, () => readRecording(recording, choices))
    } finally {
      recording.close()
    }
  }
  const was = await readOne(before)
  const is = await readOne(after)
  const progress = progressLine(environment, 'runs')
  const comparison = await interruptible((signal) =>
    compareRecordings(
      was,
      is,
      open === null || options.file === undefined
        ? null
        : {
            path: options.file,
            open,
            choices: {
              years: options.years ?? null,
              runs: options.runs ?? USUAL_RUNS,
              seed: options.seed,
              stepsPerHour: 1,
              calendarYear: new Date().getFullYear(),
              colour,
            },
            playing: { threads: options.threads ?? environment.threads, onProgress: progress.show, signal },
          },
    ),
  ).finally(progress.clear)
  if (options.json) process.stdout.write(`${JSON.stringify(comparison, null, 2)}\n`)
  else process.stdout.write(comparisonToTerminal(comparison, inkFor(environment)))
}
