/** One pass over all samples: what each short block of them looks like. Everything after it reads few samples again. */
import { eachStretch, type Samples } from './states-samples.ts'

/** Samples in a block; divides the stretches in which samples are read. */
export const SCAN_BLOCK = 32

/** Per block; min, max, mean and noise are NaN where no sample is known. In A. */
export interface Scan {
  readonly blocks: number
  readonly min_A: Float32Array
  readonly max_A: Float32Array
  readonly mean_A: Float32Array
  /** Standard deviation of white noise with the mean step between neighbours seen here, the largest step left out. */
  readonly noise_A: Float32Array
}

/** Mean of |x − y| of two normal deviates is 2 σ / √π. */
const STEP_TO_DEVIATION = Math.sqrt(Math.PI) / 2

export function scanSamples(samples: Samples): Scan {
  const blocks = Math.ceil(samples.count / SCAN_BLOCK)
  const scan = {
    blocks,
    min_A: new Float32Array(blocks),
    max_A: new Float32Array(blocks),
    mean_A: new Float32Array(blocks),
    noise_A: new Float32Array(blocks),
  }
  eachStretch(samples, 0, samples.count, (values, first) => {
    for (let from = 0; from < values.length; from += SCAN_BLOCK)
      scanBlock(scan, (first + from) / SCAN_BLOCK, values, from, Math.min(from + SCAN_BLOCK, values.length))
  })
  return scan
}

function scanBlock(
  scan: Scan,
  block: number,
  values: Float32Array | Float64Array,
  from: number,
  to: number,
): void {
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  let sum = 0
  let count = 0
  let steps = 0
  let largest = 0
  let before = Number.NaN
  for (let i = from; i < to; i++) {
    const x = values[i]
    if (x - x !== 0) continue
    count++
    sum += x
    if (x < min) min = x
    if (x > max) max = x
    const step = Math.abs(x - before)
    before = x
    if (step >= 0) {
      steps += step
      if (step > largest) largest = step
    }
  }
  scan.min_A[block] = count > 0 ? min : Number.NaN
  scan.max_A[block] = count > 0 ? max : Number.NaN
  scan.mean_A[block] = sum / count
  const noise = count > 3 ? (STEP_TO_DEVIATION * (steps - largest)) / (count - 2) : 0
  scan.noise_A[block] = count > 0 ? noise : Number.NaN
}

/** Mean of the known block nearest to the middle of samples from … to − 1, in A; 0 where none there is known. */
export function meanNearMiddle({ mean_A, blocks }: Scan, from: number, to: number): number {
  const first = Math.floor(from / SCAN_BLOCK)
  const last = Math.min(Math.floor((to - 1) / SCAN_BLOCK), blocks - 1)
  const middle = (first + last) >> 1
  for (let off = 0; off <= last - first; off++) {
    if (middle + off <= last && Number.isFinite(mean_A[middle + off])) return mean_A[middle + off]
    if (middle - off >= first && Number.isFinite(mean_A[middle - off])) return mean_A[middle - off]
  }
  return 0
}
