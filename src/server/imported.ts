/** What is told of a recording once it is imported. */
import type { Imported } from '../api/bench.ts'
import { spanStatistics } from '../recording/span.ts'
import { samplesOfRecording } from '../recording/states-samples.ts'
import type { OpenRecording } from '../store/recording-folder.ts'

export function importedOf(file: string, recording: OpenRecording): Imported {
  const { samples, duration_s, interval_s, even, origin, hasVoltage, flaws, flawTotals, notes } =
    recording.header
  const { min_A, max_A } = spanStatistics(recording)
  const { time_s } = samplesOfRecording(recording)
  return {
    file,
    samples,
    duration_s,
    interval_s,
    even,
    origin,
    hasVoltage,
    flaws: flaws.map((flaw) => ({
      ...flaw,
      at_s: flaw.sample === null ? null : time_s(Math.min(flaw.sample, samples)),
    })),
    flawTotals,
    notes,
    min_A,
    max_A,
  }
}
