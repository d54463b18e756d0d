/** The samples of a part of a recording, as an analysis reads them. */
import { sampleAtTime } from '../recording/access.ts'
import type { Recording } from '../recording/recording.ts'
import { type Span, wholeSpan } from '../recording/span.ts'
import { type Samples, samplesOfRecording } from '../recording/states-samples.ts'
import { Refusal } from './refusal.ts'

export interface RecordingPart {
  readonly samples: Samples
  /** Of the recording. */
  readonly firstSample: number
  /** Begins and ends with a sample's hold. */
  readonly span: Span
  readonly isWhole: boolean
}

/** From and to as asked for; an end that is left out is that of the recording. */
export interface AskedSpan {
  readonly from_s?: number | null | undefined
  readonly to_s?: number | null | undefined
}

/** Cut at whole samples. Throws a Refusal where the span holds nothing. */
export function partOf(recording: Recording, { from_s = null, to_s = null }: AskedSpan): RecordingPart {
  const all = samplesOfRecording(recording)
  const { duration_s } = recording.header
  const whole = { samples: all, firstSample: 0, span: wholeSpan(recording), isWhole: true }
  if (from_s === null && to_s === null) return whole
  if ((from_s ?? 0) >= Math.min(to_s ?? duration_s, duration_s))
    throw new Refusal(
      `From ${from_s ?? 0} s to ${to_s ?? duration_s} s holds nothing of a recording of ${duration_s} s.`,
    )
  const first = from_s === null ? 0 : sampleAtTime(recording, from_s)
  const end = to_s === null || to_s >= duration_s ? all.count : sampleAtTime(recording, to_s)
  const count = Math.max(end - first, 1)
  const start_s = all.time_s(first)
  return {
    samples: {
      count,
      interval_s: all.interval_s,
      read: (from, to) => all.read(first + from, first + to),
      holds_s: (from, to) => all.holds_s(first + from, first + to),
      time_s: (sample) => all.time_s(first + sample) - start_s,
    },
    firstSample: first,
    span: { from_s: start_s, to_s: all.time_s(first + count) },
    isWhole: false,
  }
}
