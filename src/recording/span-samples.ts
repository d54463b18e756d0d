/** The samples of a short span one by one, as a drawing needs them that is so near that each can be seen. */
import { blockAtTime, readBlock, sampleAtTime } from './access.ts'
import type { TimedBlock } from './block.ts'
import type { Recording } from './recording.ts'
import type { Span } from './span.ts'

export interface SpanSamples {
  /** Start and end of each hold, in s. */
  readonly from_s: Float64Array
  readonly to_s: Float64Array
  /** NaN where the source had no number. */
  readonly current_A: Float64Array
}

/** Samples that are held within the span, whole; null where there are more than `most`. */
export function spanSamples(recording: Recording, span: Span, most: number): SpanSamples | null {
  if (span.to_s <= 0 || span.from_s >= recording.header.duration_s) return columnsOf([])
  if (sampleAtTime(recording, span.to_s) - sampleAtTime(recording, span.from_s) > most) return null
  const rows: Row[] = []
  const last = blockAtTime(recording, span.to_s)
  for (let b = blockAtTime(recording, span.from_s); b <= last; b++) {
    const block = readBlock(recording, b)
    for (let i = 0; i < block.current_A.length; i++) {
      const row = rowOf(block, i)
      if (row[1] > span.from_s && row[0] < span.to_s) rows.push(row)
    }
  }
  return rows.length > most ? null : columnsOf(rows)
}

type Row = readonly [from_s: number, to_s: number, current_A: number]

function rowOf({ current_A, times_s, holds_s, start_s, interval_s }: TimedBlock, i: number): Row {
  const from_s = times_s === null ? start_s + i * interval_s : times_s[i]
  return [from_s, from_s + (holds_s === null ? interval_s : holds_s[i]), current_A[i]]
}

const columnsOf = (rows: readonly Row[]): SpanSamples => ({
  from_s: Float64Array.from(rows, ([from_s]) => from_s),
  to_s: Float64Array.from(rows, ([, to_s]) => to_s),
  current_A: Float64Array.from(rows, ([, , current_A]) => current_A),
})
