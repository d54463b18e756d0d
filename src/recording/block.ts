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

export function summarise(block: TimedBlock): BlockSummary {
  const { current_A: samples, interval_s, times_s } = block
  const size = LEVELS[0].size
  const nodes = new Nodes(Math.ceil(samples.length / size))
  const node = { valid: 0, min: 0, max: 0, charge: 0, covered: 0 }
  let valid = 0
  let blockMin = Number.POSITIVE_INFINITY
  let blockMax = Number.NEGATIVE_INFINITY
  for (let k = 0, from = 0; from < samples.length; k++, from += size) {
    sumNode(block, from, Math.min(from + size, samples.length), node)
    valid += node.valid
    if (node.min < blockMin) blockMin = node.min
    if (node.max > blockMax) blockMax = node.max
    const start = times_s === null ? block.start_s + from * interval_s : times_s[from]
    nodes.write(k, node.min, node.max, node.charge, node.covered, start)
  }
  const levels = [nodes]
  for (let level = 1; level < LEVELS.length; level++)
    levels.push(gather(levels[level - 1], LEVELS[level].size / LEVELS[level - 1].size))
  return {
    valid,
    min_A: valid > 0 ? blockMin : Number.NaN,
    max_A: valid > 0 ? blockMax : Number.NaN,
    nodes: levels.map((level) => level.bytes),
    histogram:
      block.holds_s === null ? evenHistogram(samples, interval_s) : heldHistogram(samples, block.holds_s),
  }
}

interface NodeSums {
  valid: number
  min: number
  max: number
  charge: number
  covered: number
}

/** Sums of samples from … to − 1 into `out`; min and max are NaN when none is a number. */
function sumNode(block: TimedBlock, from: number, to: number, out: NodeSums): void {
  if (block.holds_s === null) sumEven(block.current_A, from, to, block.interval_s, out)
  else sumHeld(block.current_A, from, to, block.holds_s, out)
}

function sumEven(samples: Float32Array, from: number, to: number, interval_s: number, out: NodeSums): void {
  let valid = 0
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  let sum = 0
  for (let i = from; i < to; i++) {
    const x = samples[i]
    if (x - x !== 0) continue
    valid++
    if (x < min) min = x
    if (x > max) max = x
    sum += x
  }
  close(out, valid, min, max, sum * interval_s, valid * interval_s)
}

function sumHeld(
  samples: Float32Array,
  from: number,
  to: number,
  holds_s: Float64Array,
  out: NodeSums,
): void {
  let valid = 0
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  let charge = 0
  let covered = 0
  for (let i = from; i < to; i++) {
    const x = samples[i]
    if (x - x !== 0) continue
    valid++
    if (x < min) min = x
    if (x > max) max = x
    charge += x * holds_s[i]
    covered += holds_s[i]
  }
  close(out, valid, min, max, charge, covered)
}

function close(
  out: NodeSums,
  valid: number,
  min: number,
  max: number,
  charge: number,
  covered: number,
): void {
  out.valid = valid
  out.min = valid > 0 ? min : Number.NaN
  out.max = valid > 0 ? max : Number.NaN
  out.charge = charge
  out.covered = covered
}

/** Bits of float32 from here on are infinite or not a number. */
const INFINITE_BITS = 0x7f800000

const counts = new Uint32Array(HISTOGRAM_BINS)

function evenHistogram(samples: Float32Array, interval_s: number): Float64Array {
  const bits = new Int32Array(samples.buffer, samples.byteOffset, samples.length)
  counts.fill(0)
  for (let i = 0; i < bits.length; i++)
    if ((bits[i] & 0x7fffffff) < INFINITE_BITS) counts[binOfBits(bits[i])]++
  return pairs(counts, interval_s)
}

function heldHistogram(samples: Float32Array, holds_s: Float64Array): Float64Array {
  const bits = new Int32Array(samples.buffer, samples.byteOffset, samples.length)
  const seconds = new Float64Array(HISTOGRAM_BINS)
  for (let i = 0; i < bits.length; i++)
    if ((bits[i] & 0x7fffffff) < INFINITE_BITS) seconds[binOfBits(bits[i])] += holds_s[i]
  return pairs(seconds, 1)
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

function pairs(bins: Float64Array | Uint32Array, weight: number): Float64Array {
  const found: number[] = []
  for (let bin = 0; bin < bins.length; bin++) if (bins[bin] !== 0) found.push(bin, bins[bin] * weight)
  return Float64Array.from(found)
}
