/** `overwinter read`: what a recording shows the device to do, and where the answer goes. */
import { viewAt } from '../recording/view.ts'
import { readingToTerminal } from '../report/recording-terminal.ts'
import { traceLine } from '../report/recording-trace-line.ts'
import { COLOUR, PLAIN } from '../report/terminal.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { exportFormat, exportRecording } from '../workbench/export-recording.ts'
import { openInstrument } from '../workbench/instrument-file.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { rangeMarks } from '../workbench/range-marks.ts'
import { readRecording } from '../workbench/read-recording.ts'
import { refuseOver, writeNamed } from '../workbench/write-named.ts'
import { findingStates, openShown } from './open-shown.ts'
import { readChoices, type SourceOptions } from './source-options.ts'

export interface ReadCommandOptions extends SourceOptions {
  readonly strict?: boolean
  readonly from?: number
  readonly to?: number
  readonly voltage?: number
  readonly instrument?: string
  readonly range: readonly string[]
  readonly json?: boolean
  readonly html?: string
  readonly export?: string
}

const TRACE_COLUMNS = 76

export async function readCommand(file: string, options: ReadCommandOptions): Promise<void> {
  const environment = readEnvironment()
  const { errIsTerminal, outIsTerminal, wantsColour } = environment
  const reads = [file, options.instrument].filter((path) => path !== undefined)
  for (const path of [options.export, options.html]) if (path !== undefined) refuseOver(path, reads)
  if (options.export !== undefined) exportFormat(options.export)
  const instrument =
    options.instrument === undefined
      ? null
      : await openInstrument(options.instrument, errIsTerminal && wantsColour)
  const recording = await openShown(file, readChoices(options), options.strict ?? false)
  try {
    const choices = {
      span: { from_s: options.from, to_s: options.to },
      voltage_V: options.voltage ?? null,
      instrument,
      marks: rangeMarks(options.range, instrument, recording),
    }
    const read = findingStates(environment, recording.header.samples, () => readRecording(recording, choices))
    const { reading, span } = read
    if (options.json) process.stdout.write(`${JSON.stringify(reading, null, 2)}\n`)
    else {
      const ink = outIsTerminal && wantsColour ? COLOUR : PLAIN
      const trace = traceLine(viewAt(recording, TRACE_COLUMNS, span))
      process.stdout.write(readingToTerminal(reading, trace, ink))
    }
    if (options.html !== undefined) {
      const { recordingReport } = await import('../workbench/recording-report.ts')
      await writeNamed(options.html, recordingReport(recording, read), reads)
      process.stderr.write(`Report: ${options.html}\n`)
    }
    const { export: path } = options
    if (path !== undefined) {
      const written = await interruptible((signal) => exportRecording(recording, path, span, signal))
      process.stderr.write(`Exported ${written} samples: ${path}\n`)
    }
  } finally {
    recording.close()
  }
}
