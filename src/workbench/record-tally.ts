/** A recording under way: what a person at the bench wants to see of it, in a memory that does not grow with it. */
import { CompensatedSum } from '../numeric/sum.ts'
import type { Columns, SampleSink } from '../recording/recording.ts'
import { analyse } from '../recording/states.ts'
import { samplesOf } from '../recording/states-samples.ts'
import type { LivePicture } from '../report/live-picture.ts'

const BINS = 60
const SHORTEST_BIN_S = 0.25
/** The last samples, by which levels are told. */
const RECENT = 8192
const FEWEST_FOR_STATES = 64
/** Steps between samples by which the usual one is known. */
const STEPS = 63
/** A step of so many usual ones leaves something out. */
const LATE = 1.5
/** A step longer than this, or backwards, is the device's clock being set, or a garbled stamp: no samples are missing. */
const CLOCK_STEP_S = 3600

/** Time in s from the first sample, current in A. */
export class LiveTally implements SampleSink {
  samples = 0
  /** The stamp of the last sample, and how long it has gone on by then. */
  private stamp_s = 0
  private last_s = 0
  private last_A = Number.NaN
  private readonly charge = new CompensatedSum()
  private covered_s = 0
  private lost = 0
  private damagedLines = 0
  private readonly steps: number[] = []
  private usual_s: number
  private readonly highest: number[] = []
  private firstBin = 0
  private readonly recent = new Float32Array(RECENT)
  private readonly hasTimes: boolean

  /** `interval_s`: the step between samples, where they come without times. */
  constructor(interval_s: number | null) {
    this.hasTimes = interval_s === null
    this.usual_s = interval_s ?? 0
  }

  columns({ count, time_s, current_A }: Columns): void {
    for (let i = 0; i < count; i++)
      this.add(time_s === null ? this.samples * this.usual_s : time_s[i], current_A[i])
  }

  damaged(_line: number | null, _sample: number, _text: string | null, count: number): void {
    this.damagedLines += count
  }

  private add(now_s: number, current_A: number): void {
    const step_s = now_s - this.stamp_s
    const isClockStep = step_s < 0 || step_s > CLOCK_STEP_S
    if (this.samples > 0) this.hold(isClockStep ? this.usual_s : step_s)
    this.recent[this.samples % RECENT] = current_A
    this.samples++
    this.stamp_s = now_s
    this.last_A = current_A
    this.mark(Math.floor(this.last_s / this.bin_s), current_A)
  }

  /** The highest current of each bin, the last so many of them. */
  private mark(bin: number, current_A: number): void {
    const { highest } = this
    const passed = bin - this.firstBin - BINS + 1
    if (passed > 0) {
      highest.splice(0, passed)
      this.firstBin += passed
    }
    const place = bin - this.firstBin
    while (highest.length <= place) highest.push(Number.NaN)
    if (place >= 0 && !(highest[place] >= current_A)) highest[place] = current_A
  }

  /** The sample before holds until this one, or for the usual step where this one is late. */
  private hold(step_s: number): void {
    this.last_s += step_s
    if (this.hasTimes && step_s > 0 && this.steps.length < STEPS) {
      this.steps.push(step_s)
      this.usual_s = this.steps.toSorted((a, b) => a - b)[this.steps.length >> 1]
    }
    const late = step_s > LATE * this.usual_s
    if (late) this.lost += Math.round(step_s / this.usual_s) - 1
    const held_s = late ? this.usual_s : Math.max(step_s, 0)
    if (!Number.isFinite(this.last_A)) return
    this.charge.add(this.last_A * held_s)
    this.covered_s += held_s
  }

  /** Of slow samples one bin holds one. */
  private get bin_s(): number {
    return Math.max(SHORTEST_BIN_S, this.usual_s)
  }

  picture(): LivePicture {
    return {
      highest_A: this.highest,
      bin_s: this.bin_s,
      now: this.level(),
      mean_A: this.covered_s > 0 ? this.charge.value / this.covered_s : null,
      charge_C: this.charge.value,
      duration_s: this.last_s,
      samples: this.samples,
      lostSamples: this.lost,
      damagedLines: this.damagedLines,
    }
  }

  /** The level that the last samples are at, since when, and which it is of those seen lately. */
  private level(): LivePicture['now'] {
    const count = Math.min(this.samples, RECENT)
    if (count < FEWEST_FOR_STATES || !(this.usual_s > 0)) return null
    const from = this.samples - count
    const current_A = Float32Array.from({ length: count }, (_, i) => this.recent[(from + i) % RECENT])
    if (!current_A.some(Number.isFinite)) return null
    const { states, segments } = analyse(samplesOf(current_A, this.usual_s))
    const last = segments.starts.length - 1
    const state = segments.states[last]
    return {
      state,
      of: states.length,
      current_A: states[state].mean_A,
      since_s: segments.times_s[last + 1] - segments.times_s[last],
    }
  }
}
