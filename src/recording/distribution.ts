/**
 * Quantiles and histogram of the current over time in any span. Of a short, evenly sampled span from the samples
 * themselves; of any other from the stored histograms, whose bins are 0.8 % to 1.6 % wide (histogram.ts).
 */
import { quantileSorted } from '../numeric/quantile.ts'
import { blockAtTime, readBlock, readCurrent, sampleAtTime } from './access.ts'
import { binEdges, binOfBits, HISTOGRAM_BINS } from './histogram.ts'
import { blockField, HISTOGRAM_STRIDE } from './layout.ts'
import { BLOCK_SAMPLES, type Recording } from './recording.ts'
import { clipSpan, heldWithin, type Span, samplesWithin, spanStatistics, wholeSpan } from './span.ts'

export interface HistogramBar {
  readonly low_A: number
  readonly high_A: number
  readonly duration_s: number
}

export interface Quantiles {
  /** In the order asked for; null where the span has no known current. */
  readonly values_A: readonly (number | null)[]
  /** False when read from bins, and then within 0.8 % of the true value. */
  readonly exact: boolean
}

/** Time spent in each occupied bin of current, from the lowest. */
export function spanHistogram(recording: Recording, wanted: Span = wholeSpan(recording)): HistogramBar[] {
  const seconds = binSeconds(recording, clipSpan(recording, wanted))
  const bars: HistogramBar[] = []
  for (let bin = 0; bin < HISTOGRAM_BINS; bin++)
    if (seconds[bin] > 0) bars.push({ ...binEdges(bin), duration_s: seconds[bin] })
  return bars
}

/** Current not exceeded for the share p of the covered time, for each p in 0 … 1. */
export function spanQuantiles(
  recording: Recording,
  shares: readonly number[],
  wanted: Span = wholeSpan(recording),
): Quantiles {
  for (const p of shares)
    if (!(p >= 0 && p <= 1)) throw new RangeError(`a share of time lies between 0 and 1, not ${p}`)
  const span = clipSpan(recording, wanted)
  const sorted = shortEvenSamples(recording, span)
  if (sorted !== null) return { values_A: shares.map((p) => quantileSorted(sorted, p)), exact: true }
  const { min_A, max_A } = spanStatistics(recording, span)
  if (min_A === null || max_A === null) return { values_A: shares.map(() => null), exact: true }
  const bars = spanHistogram(recording, span)
  const within = (x: number) => Math.min(Math.max(x, min_A), max_A)
  return { values_A: shares.map((p) => within(quantileOfBars(bars, p))), exact: false }
}

/** Linear within a bin: the time in it is taken as spread evenly over its width. */
function quantileOfBars(bars: readonly HistogramBar[], p: number): number {
  const total = bars.reduce((sum, bar) => sum + bar.duration_s, 0)
  let left = p * total
  for (const bar of bars) {
    if (left <= bar.duration_s) return bar.low_A + (left / bar.duration_s) * (bar.high_A - bar.low_A)
    left -= bar.duration_s
  }
  return bars[bars.length - 1].high_A
}

/** The known samples of a span in rising order when they are few and all held alike, else null. */
function shortEvenSamples(recording: Recording, span: Span): Float32Array | null {
  const first = blockAtTime(recording, span.from_s)
  const last = blockAtTime(recording, span.to_s)
  if (last > first + 1) return null
  for (let b = first; b <= last; b++) if (blockField(recording, b, 'interval_s') === 0) return null
  const from = sampleAtTime(recording, span.from_s)
  const end = sampleAtTime(recording, span.to_s)
  const to = heldWithin(readBlock(recording, last), end - last * BLOCK_SAMPLES, span) > 0 ? end + 1 : end
  if (to - from > BLOCK_SAMPLES) return null
  const known = readCurrent(recording, from, to).filter((x) => !Number.isNaN(x))
  return known.length === 0 ? null : known.sort()
}

function binSeconds(recording: Recording, span: Span): Float64Array {
  const first = blockAtTime(recording, span.from_s)
  const last = blockAtTime(recording, span.to_s)
  const bins = new Float64Array(HISTOGRAM_BINS)
  if (last > first + 1) {
    addCumulative(recording, last, bins, 1)
    addCumulative(recording, first + 1, bins, -1)
    // A difference of long sums leaves dust in bins that the span does not touch.
    const dust = 1e-13 * recording.header.duration_s
    for (let k = 0; k < bins.length; k++) if (bins[k] < dust) bins[k] = 0
  }
  addSamples(recording, first, span, bins)
  if (last > first) addSamples(recording, last, span, bins)
  return bins
}

/** Adds (or takes away) the histogram of all blocks before this one. */
function addCumulative(recording: Recording, block: number, bins: Float64Array, sign: 1 | -1): void {
  const chapter = Math.floor(block / HISTOGRAM_STRIDE)
  const dense = recording.parts.read('histogram-sums', chapter * HISTOGRAM_BINS * 8, HISTOGRAM_BINS * 8)
  const sums = new Float64Array(dense.buffer, dense.byteOffset, HISTOGRAM_BINS)
  for (let k = 0; k < HISTOGRAM_BINS; k++) bins[k] += sign * sums[k]
  const from = blockField(recording, chapter * HISTOGRAM_STRIDE, 'histogramByte')
  const length = blockField(recording, block, 'histogramByte') - from
  const sparse = recording.parts.read('histograms', from, length)
  const pairs = new Float64Array(sparse.buffer, sparse.byteOffset, length / 8)
  for (let k = 0; k < pairs.length; k += 2) bins[pairs[k]] += sign * pairs[k + 1]
}

function addSamples(recording: Recording, index: number, span: Span, bins: Float64Array): void {
  const block = readBlock(recording, index)
  const { from, to } = samplesWithin(block, span)
  const bits = new Int32Array(block.current_A.buffer, block.current_A.byteOffset, block.current_A.length)
  for (let i = from; i < to; i++) {
    const x = block.current_A[i]
    if (!Number.isNaN(x)) bins[binOfBits(bits[i])] += heldWithin(block, i, span)
  }
}
