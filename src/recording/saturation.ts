/**
 * Clipped stretches: the extreme value of the whole recording, the same many times in a row, where samples near it
 * repeat far too seldom for that to be chance. A quantised but honest plateau repeats everywhere, so it is not flagged;
 * a recording with nothing noisy above an eighth of its extreme cannot tell, and is not flagged either.
 */
import type { FlawLog } from './flaws.ts'
import { BLOCK_SAMPLES, FLAWS_KEPT } from './recording.ts'

const SHORTEST_RUN = 5
const CHANCE = 1e-6
const FEWEST_PAIRS = 16

interface Run {
  sample: number
  count: number
  duration_s: number
}

export class SaturationWatch {
  private extreme = 0
  private kept: Run[] = []
  /** All finished runs by their length, since how long is too long is only known at the end. */
  private byLength = new Map<number, { places: number; duration_s: number }>()
  private open: Run | null = null
  private pairs = 0
  private repeats = 0
  private readonly sign: 1 | -1

  /** `sign` 1 watches the largest value, −1 the smallest, when below zero. */
  constructor(sign: 1 | -1) {
    this.sign = sign
  }

  /** `blockExtreme`: largest (or smallest) sample of the block. Only blocks that reach the extreme are looked through. */
  watch(
    samples: Float32Array,
    hold_s: (i: number) => number,
    blockExtreme: number,
    firstSample: number,
  ): void {
    const top = blockExtreme * this.sign
    if (!(top > 0) || top < this.extreme) return
    if (top > this.extreme) this.forget()
    this.extreme = top
    for (let i = 0; i < samples.length; ) {
      let to = i + 1
      while (to < samples.length && samples[to] === samples[i]) to++
      const value = samples[i] * this.sign
      if (value === top) this.addRun(i, to, hold_s, firstSample)
      else if (value > top / 8) {
        this.pairs += to - i
        this.repeats += to - i - 1
      }
      i = to
    }
  }

  /** Writes the stretches that chance does not explain into the log. */
  report(log: FlawLog): void {
    this.close()
    if (this.pairs < FEWEST_PAIRS) return
    const repeating = this.repeats / this.pairs
    const clipped = (count: number) => repeating ** (count - 1) < CHANCE
    const more = { kind: 'saturated' as const, places: 0, count: 0, duration_s: 0 }
    for (const [count, runs] of this.byLength) {
      if (!clipped(count)) continue
      more.places += runs.places
      more.count += runs.places * count
      more.duration_s += runs.duration_s
    }
    for (const run of this.kept) {
      if (!clipped(run.count)) continue
      log.add({ kind: 'saturated', line: null, text: null, ...run })
      more.places--
      more.count -= run.count
      more.duration_s -= run.duration_s
    }
    if (more.places > 0) log.addToTotal(more)
  }

  private addRun(from: number, to: number, hold_s: (i: number) => number, firstSample: number): void {
    let duration_s = 0
    for (let k = from; k < to; k++) duration_s += hold_s(k)
    const sample = firstSample + from
    if (this.open && this.open.sample + this.open.count !== sample) this.close()
    this.open ??= { sample, count: 0, duration_s: 0 }
    this.open.count += to - from
    this.open.duration_s += duration_s
    if (to < BLOCK_SAMPLES) this.close()
  }

  private close(): void {
    const run = this.open
    this.open = null
    if (run === null || run.count < SHORTEST_RUN) return
    const alike = this.byLength.get(run.count) ?? { places: 0, duration_s: 0 }
    alike.places++
    alike.duration_s += run.duration_s
    this.byLength.set(run.count, alike)
    if (this.kept.length < FLAWS_KEPT) this.kept.push(run)
  }

  private forget(): void {
    this.kept = []
    this.byLength = new Map()
    this.open = null
  }
}
