/**
 * Builds a recording from columns of any length: settles times block by block, writes the parts to a sink as they are
 * finished, and keeps nothing but the current block, the block table and one dense histogram.
 */
import { summarise, type TimedBlock } from './block.ts'
import { FlawLog } from './flaws.ts'
import { HISTOGRAM_BINS } from './histogram.ts'
import { Integrals } from './integrals.ts'
import { BLOCK_FIELDS, type BlockField, FIELD, HISTOGRAM_STRIDE, LEVELS } from './layout.ts'
import {
  BLOCK_SAMPLES,
  type Columns,
  type Origin,
  type PartSink,
  type RecordingHeader,
  type SampleSink,
} from './recording.ts'
import { SaturationWatch } from './saturation.ts'
import { type Settled, TimeAxis } from './time-axis.ts'

export interface BuilderPlan {
  readonly hasVoltage: boolean
  /** Step between samples where the source has no times; null where it has. */
  readonly interval_s: number | null
  /** The digit to which the source wrote its times, in seconds. */
  readonly timeResolution_s: number
}

export interface About {
  readonly source: RecordingHeader['source']
  readonly origin: Origin
  readonly notes: readonly string[]
}

export interface Built {
  readonly header: RecordingHeader
  readonly table: Float64Array
}

export class RecordingBuilder implements SampleSink {
  private readonly current = new Float32Array(BLOCK_SAMPLES)
  private readonly voltage: Float32Array | null
  private readonly times: Float64Array | null
  private filled = 0
  private firstSample = 0
  private end_s = 0
  private readonly rows: Float64Array[] = []
  private readonly totals = new Integrals()
  private readonly histogram = new Float64Array(HISTOGRAM_BINS)
  private timesBytes = 0
  private histogramBytes = 0
  private usual_s: number | null = null
  private even = true
  private readonly flaws = new FlawLog()
  private readonly axis: TimeAxis
  private readonly watches = [new SaturationWatch(1), new SaturationWatch(-1)]
  private readonly sink: PartSink
  private readonly plan: BuilderPlan

  constructor(sink: PartSink, plan: BuilderPlan) {
    this.sink = sink
    this.plan = plan
    this.voltage = plan.hasVoltage ? new Float32Array(BLOCK_SAMPLES) : null
    this.times = plan.interval_s === null ? new Float64Array(BLOCK_SAMPLES) : null
    this.axis = new TimeAxis(plan.timeResolution_s, this.flaws)
  }

  columns(columns: Columns): void {
    for (let from = 0; from < columns.count; ) {
      if (this.filled === BLOCK_SAMPLES) this.finishBlock(columns.time_s?.[from] ?? null)
      const to = Math.min(columns.count, from + BLOCK_SAMPLES - this.filled)
      this.current.set(columns.current_A.subarray(from, to), this.filled)
      if (this.voltage && columns.voltage_V)
        this.voltage.set(columns.voltage_V.subarray(from, to), this.filled)
      if (this.times && columns.time_s) this.times.set(columns.time_s.subarray(from, to), this.filled)
      this.filled += to - from
      from = to
    }
  }

  damaged(line: number | null, sample: number, text: string | null, count: number): void {
    this.flaws.add({ kind: 'damaged-line', sample, line, count, duration_s: 0, text })
  }

  /** Ends the recording. Throws when it holds no sample, or when its times never advance. */
  finish(about: About): Built {
    if (this.filled > 0) this.finishBlock(null)
    if (this.rows.length === 0) throw new Error('no samples were found in this source')
    const duration_s = this.end_s
    if (duration_s === 0 && this.firstSample > 1)
      throw new Error(
        'the times never advance; name the right time column, or give the sampling rate instead',
      )
    for (const watch of this.watches) watch.report(this.flaws)
    const table = new Float64Array((this.rows.length + 1) * BLOCK_FIELDS)
    this.rows.forEach((row, b) => {
      table.set(row, b * BLOCK_FIELDS)
    })
    table.set(
      this.row({ firstSample: this.firstSample, start_s: duration_s, end_s: duration_s }),
      this.rows.length * BLOCK_FIELDS,
    )
    this.sink.append('blocks', bytesOf(table))
    const header: RecordingHeader = {
      format: 1,
      source: about.source,
      samples: this.firstSample,
      duration_s,
      covered_s: this.totals.covered_s.value,
      origin: about.origin,
      interval_s: this.usual_s ?? 0,
      even: this.even,
      hasVoltage: this.voltage !== null,
      flaws: this.flaws.list(),
      flawTotals: this.flaws.totals(),
      notes: about.notes,
    }
    return { header, table }
  }

  private finishBlock(next: number | null): void {
    const n = this.filled
    const current_A = this.current.subarray(0, n)
    const voltage_V = this.voltage?.subarray(0, n) ?? null
    const times_s = this.times?.subarray(0, n) ?? null
    const settled = this.settle(times_s, next)
    const start_s = times_s === null ? this.end_s : times_s[0]
    const even = settled.holds === null
    const interval_s = settled.interval_s ?? 0
    const block: TimedBlock = {
      current_A,
      voltage_V,
      interval_s,
      holds_s: settled.holds,
      start_s,
      times_s: even ? null : times_s,
    }
    const summary = summarise(block)
    if (summary.valid < n) this.logMissing(block)
    this.watchSaturation(block, summary.min_A, summary.max_A)
    if (this.rows.length % HISTOGRAM_STRIDE === 0) this.sink.append('histogram-sums', bytesOf(this.histogram))
    this.rows.push(
      this.row({
        firstSample: this.firstSample,
        count: n,
        start_s,
        end_s: settled.end_s,
        interval_s,
        valid: summary.valid,
        min_A: summary.min_A,
        max_A: summary.max_A,
        histogramEntries: summary.histogram.length / 2,
      }),
    )
    this.write(block, summary.nodes, summary.histogram)
    const sums = new Integrals()
    sums.add(block, 0, n)
    this.totals.plus(sums)
    for (let k = 0; k < summary.histogram.length; k += 2)
      this.histogram[summary.histogram[k]] += summary.histogram[k + 1]
    this.usual_s ??= even ? interval_s : medianOf(settled.holds ?? new Float64Array())
    this.even &&= even
    this.end_s = settled.end_s
    this.firstSample += n
    this.filled = 0
  }

  private settle(times_s: Float64Array | null, next: number | null): Settled {
    if (times_s !== null) return this.axis.settle(times_s, next, this.firstSample)
    const interval_s = this.plan.interval_s ?? 0
    return { interval_s, holds: null, end_s: (this.firstSample + this.filled) * interval_s }
  }

  private write(block: TimedBlock, nodes: readonly Uint8Array[], histogram: Float64Array): void {
    this.sink.append('current', bytesOf(block.current_A))
    if (block.voltage_V) this.sink.append('voltage', bytesOf(block.voltage_V))
    if (block.times_s && block.holds_s) {
      this.sink.append('times', bytesOf(block.times_s))
      this.sink.append('times', bytesOf(block.holds_s))
      this.timesBytes += 2 * block.times_s.byteLength
    }
    LEVELS.forEach((level, k) => {
      this.sink.append(level.part, nodes[k])
    })
    this.sink.append('histograms', bytesOf(histogram))
    this.histogramBytes += histogram.byteLength
  }

  /** A row of the table with the sums so far. */
  private row(own: Partial<Record<BlockField, number>>): Float64Array {
    const row = new Float64Array(BLOCK_FIELDS)
    const { charge_C, square_A2s, energy_J, covered_s, energyCovered_s } = this.totals
    const sums = [charge_C, square_A2s, energy_J, covered_s, energyCovered_s]
    sums.forEach((sum, k) => {
      row[FIELD.charge_C + 2 * k] = sum.hi
      row[FIELD.charge_C + 2 * k + 1] = sum.lo
    })
    row[FIELD.timesByte] = this.timesBytes
    row[FIELD.histogramByte] = this.histogramBytes
    for (const [field, value] of Object.entries(own)) row[FIELD[field as BlockField]] = value
    return row
  }

  private logMissing(block: TimedBlock): void {
    const { current_A, holds_s, interval_s } = block
    for (let i = 0; i < current_A.length; i++) {
      if (Number.isFinite(current_A[i])) continue
      const duration_s = holds_s === null ? interval_s : holds_s[i]
      this.flaws.add({
        kind: 'not-a-number',
        sample: this.firstSample + i,
        line: null,
        count: 1,
        duration_s,
        text: null,
      })
    }
  }

  private watchSaturation(block: TimedBlock, min_A: number, max_A: number): void {
    const hold = (i: number) => (block.holds_s === null ? block.interval_s : block.holds_s[i])
    this.watches[0].watch(block.current_A, hold, max_A, this.firstSample)
    this.watches[1].watch(block.current_A, hold, min_A, this.firstSample)
  }
}

function bytesOf(array: Float32Array | Float64Array): Uint8Array {
  return new Uint8Array(array.buffer, array.byteOffset, array.byteLength)
}

function medianOf(values: Float64Array): number {
  return values.toSorted()[values.length >> 1]
}
