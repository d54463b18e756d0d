/** The samples of a span, block by block, with a time each: for export and for anything that walks a recording. */
import { blockAtTime, readBlock } from './access.ts'
import type { Recording } from './recording.ts'
import { clipSpan, type Span, samplesWithin } from './span.ts'

export interface SpanColumns {
  readonly time_s: Float64Array
  /** NaN where the source had no number. */
  readonly current_A: Float32Array
  readonly voltage_V: Float32Array | null
}

/** Samples that start within the span, `to_s` excluded. */
export function* spanColumns(recording: Recording, wanted: Span): Generator<SpanColumns> {
  const span = clipSpan(recording, wanted)
  const last = blockAtTime(recording, span.to_s)
  for (let b = blockAtTime(recording, span.from_s); b <= last; b++) {
    const block = readBlock(recording, b)
    const timeOf = (i: number) => block.times_s?.[i] ?? block.start_s + i * block.interval_s
    let { from, to } = samplesWithin(block, span)
    if (timeOf(from) < span.from_s) from++
    if (to > from && timeOf(to - 1) >= span.to_s) to--
    if (to <= from) continue
    yield {
      time_s: Float64Array.from({ length: to - from }, (_, k) => timeOf(from + k)),
      current_A: block.current_A.subarray(from, to),
      voltage_V: block.voltage_V?.subarray(from, to) ?? null,
    }
  }
}

/** A float32 in as few digits as give it back. */
export function shortest(x: number): string {
  if (Number.isNaN(x)) return ''
  for (let digits = 6; digits < 9; digits++) {
    const rounded = Number(x.toPrecision(digits))
    if (Math.fround(rounded) === x) return String(rounded)
  }
  return String(Number(x.toPrecision(9)))
}
