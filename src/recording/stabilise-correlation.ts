/** How much neighbouring samples hang together, seen from how much faster steps grow with their length. */
import type { Samples } from './states-samples.ts'
import { SCAN_BLOCK, type Scan } from './states-scan.ts'

export interface Correlation {
  /** Deviation of a sample over the deviation that steps between neighbours show; 1 for white noise. */
  readonly deviation: number
  /** Variance of a mean over that of as many uncorrelated samples: by so much a change must be plainer. */
  readonly penalty: number
}

const MOST_BLOCKS = 2000
const FEWEST_BLOCKS = 8
const LAG = 8
/** A wider block holds a change. */
const WIDEST_RANGE = 10
/** Above this, what hangs together is not noise. */
const MOST_CORRELATION = 0.9

/** As of a first-order autoregression: steps over lag L have variance 2 σ² (1 − ρ^L) (Box & Jenkins 1970, 3.2). */
export function correlationOf(samples: Samples, scan: Scan): Correlation {
  const stride = Math.max(1, Math.floor(scan.blocks / MOST_BLOCKS))
  let near = 0
  let far = 0
  let used = 0
  for (let b = 0; b < scan.blocks - 1; b += stride) {
    const noise = scan.noise_A[b]
    if (!(noise > 0) || scan.max_A[b] - scan.min_A[b] > WIDEST_RANGE * noise) continue
    const values = samples.read(b * SCAN_BLOCK, (b + 1) * SCAN_BLOCK)
    const [nearHere, farHere] = [meanSquareStep(values, 1), meanSquareStep(values, LAG)]
    if (!Number.isFinite(nearHere + farHere)) continue
    near += nearHere / noise ** 2
    far += farHere / noise ** 2
    used++
  }
  if (used < FEWEST_BLOCKS || near === 0) return { deviation: 1, penalty: 1 }
  const rho = Math.min(Math.max(1 - near / far, 0), MOST_CORRELATION)
  return { deviation: 1 / Math.sqrt(1 - rho), penalty: (1 + rho) / (1 - rho) }
}

function meanSquareStep(values: Float32Array | Float64Array, lag: number): number {
  let sum = 0
  for (let i = lag; i < values.length; i++) sum += (values[i] - values[i - lag]) ** 2
  return sum / (values.length - lag)
}
