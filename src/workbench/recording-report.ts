/** The one-file report of a recording that was read. */
import { overlayCycles } from '../recording/cycles-overlay.ts'
import type { Recording } from '../recording/recording.ts'
import { viewAt } from '../recording/view.ts'
import { readingToHtml } from '../report/recording-html.ts'
import type { ReadRecording } from './read-recording.ts'

const FIGURE_COLUMNS = 1200

export function recordingReport(
  recording: Recording,
  { reading, analysis, samples, span }: ReadRecording,
): string {
  const view = viewAt(recording, FIGURE_COLUMNS, span)
  const overlay = overlayCycles(samples, analysis.segments, analysis.cycles)
  return readingToHtml(reading, { view, overlay })
}
