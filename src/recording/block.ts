/** What is kept of one block beside its samples: the nodes of the pyramid and a histogram. */
import { binOfBits, HISTOGRAM_BINS } from './histogram.ts'
import type { Held } from './integrals.ts'
import { LEVELS, NODE_BYTES } from './layout.ts'

export interface TimedBlock extends Held {
  readonly start_s: number
  /** Time of each sample; null when even. */
  readonly times_s: Float64Array | null
}

export interface BlockSummary {
  readonly valid: number
  readonly min_A: number
  readonly max_A: number
  /** Nodes of each level, finest first. */
  readonly nodes: readonly Uint8Array[]
  /** Pairs of bin and seconds, bins rising. */
  readonly histogram: Float64Array
}

/** Nodes under construction: float32 and float64 seen through the same bytes (layout.ts). */
class Nodes {
  readonly bytes: Uint8Array
  readonly narrow: Float32Array
  readonly wide: Float64Array

  constructor(count: number) {
    const buffer = new ArrayBuffer(count * NODE_BYTES)
    this.bytes = new Uint8Array(buffer)
    this.narrow = new Float32Array(buffer)
    this.wide = new Float64Array(buffer)
  }

  write(k: number, min: number, max: number, charge: number, covered: number, start: number): void {
    this.narrow[6 * k] = min
    this.narrow[6 * k + 1] = max
    this.narrow[6 * k + 2] = charge
    this.narrow[6 * k + 3] = covered
    this.wide[3 * k + 2] = start
  }
}

const seconds = new Float64Array(HISTOGRAM_BINS)

export function summarise(block: TimedBlock): BlockSummary {
  const { current_A: samples, interval_s, holds_s, times_s } = block
  const bits = new Int32Array(samples.buffer, samples.byteOffset, samples.length)
  const size = LEVELS[0].size
  const nodes = new Nodes(Math.ceil(samples.length / size))
  seconds.fill(0)
  let valid = 0
  let blockMin = Number.POSITIVE_INFINITY
  let blockMax = Number.NEGATIVE_INFINITY
  for (let k = 0, from = 0; from < samples.length; k++, from += size) {
    const to = Math.min(from + size, samples.length)
    let min = Number.POSITIVE_INFINITY
    let max = Number.NEGATIVE_INFINITY
    let charge = 0
    let covered = 0
    for (let i = from; i < to; i++) {
      const x = samples[i]
      if (x - x !== 0) continue
      const hold = holds_s === null ? interval_s : holds_s[i]
      valid++
      if (x < min) min = x
      if (x > max) max = x
      charge += x * hold
      covered += hold
      seconds[binOfBits(bits[i])] += hold
    }
    const start = times_s === null ? block.start_s + from * interval_s : times_s[from]
    if (min < blockMin) blockMin = min
    if (max > blockMax) blockMax = max
    const known = min <= max
    nodes.write(k, known ? min : Number.NaN, known ? max : Number.NaN, charge, covered, start)
  }
  const levels = [nodes]
  for (let level = 1; level < LEVELS.length; level++)
    levels.push(gather(levels[level - 1], LEVELS[level].size / LEVELS[level - 1].size))
  return {
    valid,
    min_A: valid > 0 ? blockMin : Number.NaN,
    max_A: valid > 0 ? blockMax : Number.NaN,
    nodes: levels.map((level) => level.bytes),
    histogram: pairs(seconds),
  }
}

/** The next level: each node of it sums up `fan` nodes of this one. */
function gather(fine: Nodes, fan: number): Nodes {
  const count = fine.wide.length / 3
  const coarse = new Nodes(Math.ceil(count / fan))
  for (let k = 0, from = 0; from < count; k++, from += fan) {
    let min = Number.NaN
    let max = Number.NaN
    let charge = 0
    let covered = 0
    for (let i = from; i < Math.min(from + fan, count); i++) {
      if (!(fine.narrow[6 * i] >= min)) min = Number.isNaN(fine.narrow[6 * i]) ? min : fine.narrow[6 * i]
      if (!(fine.narrow[6 * i + 1] <= max))
        max = Number.isNaN(fine.narrow[6 * i + 1]) ? max : fine.narrow[6 * i + 1]
      charge += fine.narrow[6 * i + 2]
      covered += fine.narrow[6 * i + 3]
    }
    coarse.write(k, min, max, charge, covered, fine.wide[3 * from + 2])
  }
  return coarse
}

function pairs(bins: Float64Array): Float64Array {
  const found: number[] = []
  for (let bin = 0; bin < bins.length; bin++) if (bins[bin] !== 0) found.push(bin, bins[bin])
  return Float64Array.from(found)
}
