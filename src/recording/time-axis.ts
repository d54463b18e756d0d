/**
 * From times as written to times that rise and holds that tile them. A block whose times cannot be told from even ones
 * is stored as a start and an interval; any other keeps each time and hold. Nothing is bridged: a sample before a gap
 * holds for the usual interval only.
 */
import type { FlawLog } from './flaws.ts'

/** Steps looked at on either side for the usual one. */
const AROUND = 16
/** A step up to this many times the usual one is jitter. */
const JITTER = 1.5
/** Missing samples in an otherwise even run: up to this many steps they count as dropped, beyond as a gap. */
const DROPPED_UP_TO = 10
/** A gap is this many usual steps, in an even run and in an irregular one. */
const GAP_EVEN = 5
const GAP_IRREGULAR = 20

export interface Settled {
  readonly interval_s: number | null
  /** Hold of each sample; null when even. */
  readonly holds: Float64Array | null
  readonly end_s: number
}

export class TimeAxis {
  /** Added to the source's times since its clock stepped back. */
  private shift = 0
  /** Latest accepted steps, as a ring. */
  private readonly steps = new Float64Array(AROUND)
  private known = 0
  private readonly resolution: number
  private readonly flaws: FlawLog

  /** `resolution_s`: the digit to which the source wrote its times. */
  constructor(resolution_s: number, flaws: FlawLog) {
    this.resolution = resolution_s
    this.flaws = flaws
  }

  /** Makes `times` (in place) rise from the first to the last; `next` is the source's time after them, if any. */
  settle(times: Float64Array, next: number | null, firstSample: number): Settled {
    if (this.shift !== 0) {
      for (let i = 0; i < times.length; i++) times[i] += this.shift
      if (next !== null) next += this.shift
    }
    const n = times.length
    if (n === 1 && next === null && this.known > 0) {
      const step = this.median([])
      return { interval_s: step, holds: null, end_s: times[0] + step }
    }
    const whole = next === null ? null : evenStep(times, next, n, this.resolution)
    const step = whole ?? evenStep(times, times[n - 1], n - 1, this.resolution)
    if (step === null || this.startsOff(step)) return this.settleEach(times, next, firstSample)
    this.remember(step)
    if (whole !== null || next === null) return { interval_s: step, holds: null, end_s: times[0] + n * step }
    // Even inside, but the step to the next block is not the usual one.
    const hold = this.hold(times, n - 1, next, firstSample)
    if (hold === step) return { interval_s: step, holds: null, end_s: times[0] + n * step }
    const holds = new Float64Array(n).fill(step)
    holds[n - 1] = hold
    return { interval_s: null, holds, end_s: times[n - 1] + hold }
  }

  /** A block of one step may be even with a step that is a gap in the run before it. */
  private startsOff(step: number): boolean {
    return this.known > 0 && step > JITTER * this.median([])
  }

  private settleEach(times: Float64Array, next: number | null, firstSample: number): Settled {
    this.spreadRepeats(times, next)
    const n = times.length
    const holds = new Float64Array(n)
    const shiftBefore = this.shift
    for (let i = 0; i < n; i++) {
      const moved = this.shift - shiftBefore
      times[i] += moved
      const following = i + 1 < n ? times[i + 1] : next
      holds[i] = following === null ? this.median([]) : this.hold(times, i, following + moved, firstSample)
    }
    return { interval_s: null, holds, end_s: times[n - 1] + holds[n - 1] }
  }

  /** How long sample i stands, and what is wrong with the step from it to `following`. */
  private hold(times: Float64Array, i: number, following: number, firstSample: number): number {
    const step = following - times[i]
    if (step >= 0 && this.known > 0 && step <= JITTER * this.steps[(this.known - 1) % AROUND])
      return this.remember(step)
    const around = stepsAfter(times, i + 1)
    const usual = this.median(around)
    const sample = firstSample + i
    if (step < 0) {
      this.flaws.add({ kind: 'clock-backwards', sample, line: null, count: 1, duration_s: -step, text: null })
      this.shift += usual - step
      return usual
    }
    const ratio = usual > 0 ? step / usual : 1
    if (ratio <= JITTER) return this.remember(step)
    const even = this.isEven(around)
    const count = Math.max(Math.round(ratio) - 1, 1)
    const missing = { sample, line: null, count, duration_s: step - usual, text: null }
    if (even && Math.abs(ratio - count - 1) <= 0.1 && count <= DROPPED_UP_TO)
      this.flaws.add({ kind: 'dropped', ...missing })
    else if (ratio > (even ? GAP_EVEN : GAP_IRREGULAR)) this.flaws.add({ kind: 'gap', ...missing })
    else return this.remember(step)
    return usual
  }

  private remember(step: number): number {
    this.steps[this.known++ % AROUND] = step
    return step
  }

  private nearby(around: readonly number[]): number[] {
    const before = this.steps.subarray(0, Math.min(this.known, AROUND))
    return [...before, ...around].sort((a, b) => a - b)
  }

  /** The upper median, so that a lasting change to slower sampling is believed from its first step. */
  private median(around: readonly number[]): number {
    const sorted = this.nearby(around)
    return sorted.length === 0 ? 0 : sorted[sorted.length >> 1]
  }

  private isEven(around: readonly number[]): boolean {
    const sorted = this.nearby(around)
    return sorted[(3 * sorted.length) >> 2] <= 1.2 * sorted[sorted.length >> 2]
  }

  /** Stamps too coarse for the rate repeat: the samples of one stamp share the time until the next stamp evenly. */
  private spreadRepeats(times: Float64Array, next: number | null): void {
    const n = times.length
    let width = 0
    for (let from = 0; from < n; ) {
      let to = from + 1
      while (to < n && times[to] === times[from]) to++
      const following = to < n ? times[to] : next
      const step = following === null ? 0 : following - times[from]
      const usable = step > 0 && (width === 0 || step <= GAP_EVEN * width)
      const share = (usable ? step : width || this.median([]) * (to - from)) / (to - from)
      if (to - from > 1) for (let k = from; k < to; k++) times[k] += (k - from) * share
      if (usable) width = step
      from = to
    }
  }
}

/** The steps after place i, as far as they rise. */
function stepsAfter(times: Float64Array, i: number): number[] {
  const steps: number[] = []
  for (let k = i; k + 1 < times.length && steps.length < AROUND; k++)
    if (times[k + 1] > times[k]) steps.push(times[k + 1] - times[k])
  return steps
}

/**
 * The step of even times from times[0] to `last`, `steps` of them, or null when some time is further from its even
 * place than the written digits explain (and never by more than a quarter of a step).
 */
function evenStep(times: Float64Array, last: number, steps: number, resolution: number): number | null {
  if (steps < 1) return null
  const start = times[0]
  const step = (last - start) / steps
  if (!(step > 0)) return null
  const rounding = 4 * Number.EPSILON * Math.max(Math.abs(start), Math.abs(last))
  const tolerance = Math.max(Math.min(resolution, step / 4), rounding)
  for (let i = 0; i < times.length; i++)
    if (!(Math.abs(times[i] - start - i * step) <= tolerance)) return null
  return step
}
