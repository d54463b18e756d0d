/**
 * What a drawing of a span needs: smallest, largest and mean current of each of a row of buckets, from the coarsest
 * level of the pyramid that has at least four nodes to a bucket. Every node falls into exactly one bucket, that of its
 * start, so no sample is lost at any zoom; a bucket's edge is off by at most a quarter of its width.
 */
import { blockAtTime, readBlock } from './access.ts'
import { BLOCK_FIELDS, blockCount, blockField, FIELD, LEVELS, NODE_BYTES } from './layout.ts'
import { BLOCK_SAMPLES, type Recording } from './recording.ts'
import { clipSpan, heldWithin, type Span, samplesWithin, wholeSpan } from './span.ts'

const NODES_PER_BUCKET = 4

export interface View {
  readonly from_s: number
  readonly to_s: number
  readonly bucket_s: number
  /** One value per bucket; NaN where no sample starts in it. Arrays for drawing, hence not null. */
  readonly min_A: Float32Array
  readonly max_A: Float32Array
  readonly mean_A: Float32Array
  /** Share of each bucket's time that is covered, 0 to 1, give or take the node or sample at each edge. */
  readonly covered: Float32Array
}

/** `buckets`: a whole number from 1 to 100 000; throws RangeError otherwise, or when the span misses the recording. */
export function viewAt(recording: Recording, buckets: number, wanted: Span = wholeSpan(recording)): View {
  return gridAt(recording, buckets, clipSpan(recording, wanted))
}

/** As `viewAt`, with the buckets where they were asked for, though part of them, or all, lie outside the recording. */
export function gridAt(recording: Recording, buckets: number, span: Span): View {
  if (!Number.isInteger(buckets) || buckets < 1 || buckets > 100_000)
    throw new RangeError(`a view has 1 to 100000 buckets, not ${buckets}`)
  const drawing = new Drawing(span, buckets)
  if (span.to_s <= 0 || span.from_s >= recording.header.duration_s) return drawing.view()
  const first = blockAtTime(recording, span.from_s)
  const last = blockAtTime(recording, span.to_s)
  const perBucket = samplesIn(recording, span, first, last) / buckets
  const level = LEVELS.findLast((each) => each.size * NODES_PER_BUCKET <= perBucket)
  if (level === undefined) for (let b = first; b <= last; b++) drawing.addSamples(recording, b)
  else drawing.addNodes(recording, level, first, last)
  return drawing.view()
}

/** About how many samples lie in a span. */
function samplesIn(recording: Recording, span: Span, first: number, last: number): number {
  let samples = 0
  for (let b = first; b <= last; b++) {
    const at = b * BLOCK_FIELDS
    const start = recording.table[at + FIELD.start_s]
    const end = recording.table[at + FIELD.end_s]
    const inside = Math.min(end, span.to_s) - Math.max(start, span.from_s)
    if (inside > 0) samples += (recording.table[at + FIELD.count] * inside) / (end - start)
  }
  return samples
}

class Drawing {
  private readonly min: Float32Array
  private readonly max: Float32Array
  private readonly charge: Float64Array
  private readonly covered: Float64Array
  private readonly span: Span
  private readonly bucket_s: number

  constructor(span: Span, buckets: number) {
    this.span = span
    this.bucket_s = (span.to_s - span.from_s) / buckets
    this.min = new Float32Array(buckets).fill(Number.NaN)
    this.max = new Float32Array(buckets).fill(Number.NaN)
    this.charge = new Float64Array(buckets)
    this.covered = new Float64Array(buckets)
  }

  private add(start: number, min: number, max: number, charge: number, covered: number): void {
    const bucket = Math.floor((start - this.span.from_s) / this.bucket_s)
    const b = Math.min(Math.max(bucket, 0), this.min.length - 1)
    if (!(this.min[b] <= min) && !Number.isNaN(min)) this.min[b] = min
    if (!(this.max[b] >= max) && !Number.isNaN(max)) this.max[b] = max
    this.charge[b] += charge
    this.covered[b] += covered
  }

  addSamples(recording: Recording, index: number): void {
    const block = readBlock(recording, index)
    const { from, to } = samplesWithin(block, this.span)
    const { current_A, times_s, holds_s, start_s, interval_s } = block
    for (let i = from; i < to; i++) {
      const x = current_A[i]
      // Only the first and last sample can be cut by the span.
      const inside = i > from && i < to - 1
      const hold = !inside ? heldWithin(block, i, this.span) : holds_s === null ? interval_s : holds_s[i]
      if (x - x !== 0 || (hold === 0 && !inside)) continue
      this.add(times_s === null ? start_s + i * interval_s : times_s[i], x, x, x * hold, hold)
    }
  }

  addNodes(recording: Recording, level: (typeof LEVELS)[number], first: number, last: number): void {
    const perBlock = BLOCK_SAMPLES / level.size
    const final = last === blockCount(recording) - 1
    const to = final ? Math.ceil(recording.header.samples / level.size) : (last + 1) * perBlock
    const from = first * perBlock
    const bytes = recording.parts.read(level.part, from * NODE_BYTES, (to - from) * NODE_BYTES)
    const narrow = new Float32Array(bytes.buffer, bytes.byteOffset, (to - from) * 6)
    const wide = new Float64Array(bytes.buffer, bytes.byteOffset, (to - from) * 3)
    const end = blockField(recording, last, 'end_s')
    for (let k = 0; k < to - from; k++) {
      const next = k + 1 < to - from ? wide[3 * (k + 1) + 2] : end
      const start = wide[3 * k + 2]
      if (next <= this.span.from_s || start >= this.span.to_s) continue
      this.add(start, narrow[6 * k], narrow[6 * k + 1], narrow[6 * k + 2], narrow[6 * k + 3])
    }
  }

  view(): View {
    const mean_A = Float32Array.from(this.charge, (charge, b) => charge / this.covered[b])
    const covered = Float32Array.from(this.covered, (seconds) => Math.min(seconds / this.bucket_s, 1))
    return { ...this.span, bucket_s: this.bucket_s, min_A: this.min, max_A: this.max, mean_A, covered }
  }
}
