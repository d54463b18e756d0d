/** From samples to segments: levels found, the cheapest path through them, levels found again from its segments, and again. */
import { type Level, levelsOf } from './levels.ts'
import { type Stabilised, stabilise } from './stabilise.ts'
import { correlationOf } from './stabilise-correlation.ts'
import { digitOf } from './stabilise-digit.ts'
import { discover, innerMoments, type Stretch } from './states-discover.ts'
import { cheapestPath, type Path } from './states-path.ts'
import type { Samples } from './states-samples.ts'
import { meanNearMiddle, SCAN_BLOCK, type Scan, scanSamples } from './states-scan.ts'
import { joinTexture } from './states-texture.ts'

export interface Segmented {
  /** Step of the readings; null where they are as good as continuous. */
  readonly digit_A: number | null
  readonly path: Path
  readonly scale: Stabilised
  readonly levels: readonly Level[]
}

/** Shorter stretches with so large a variance are edges that PELT had to give to someone. */
const EDGE_SAMPLES = 8
const EDGE_VARIANCE = 9
/** From so many whole blocks on, a segment is described by them and its samples are not read again. */
const FEWEST_BLOCKS = 3

/** Throws RangeError when no sample is a number. */
export function segment(samples: Samples): Segmented {
  const scan = scanSamples(samples)
  const correlated = correlationOf(samples, scan)
  const digit_A = digitOf(samples)
  const scale = stabilise(scan, samples.interval_s, digit_A ?? 0, correlated.deviation)
  // 2 ln n per change, the criterion of Schwarz (1978) for a place and a level; noise that hangs together weighs less.
  const penalty = 2 * Math.log(Math.max(samples.count, 16)) * correlated.penalty
  let stretches = discover(samples, scan, scale, penalty)
  let levels: Level[] = []
  let path: Path = { starts: new Int32Array(1), levels: new Uint16Array(1) }
  for (let round = 0; round < 2; round++) {
    levels = levelsOf(levelSamples(stretches, scan, scale))
    path = joinTexture(cheapestPath(samples, scan, scale, levels, penalty), samples.count, samples.interval_s)
    if (round === 0) stretches = stretchesOf(path, samples, scan, scale)
  }
  return { digit_A, path, scale, levels }
}

function levelSamples(stretches: readonly Stretch[], scan: Scan, scale: Stabilised) {
  const states = stretches.filter(
    ({ from, to, variance }) => to - from >= EDGE_SAMPLES || variance <= EDGE_VARIANCE,
  )
  return (states.length > 0 ? states : stretches).map(({ from, to, y, variance }) => {
    return { y, variance, spread: scale.spreadAt(meanNearMiddle(scan, from, to)) }
  })
}

/** The segments of a path with their means and variances. */
function stretchesOf(path: Path, samples: Samples, scan: Scan, scale: Stabilised): Stretch[] {
  const stretches: Stretch[] = []
  path.starts.forEach((from, k) => {
    const to = k + 1 < path.starts.length ? path.starts[k + 1] : samples.count
    const first = Math.ceil(from / SCAN_BLOCK)
    const end = Math.floor(to / SCAN_BLOCK)
    const described =
      end - first >= FEWEST_BLOCKS
        ? fromBlocks(scan, scale, first, end)
        : fromSamples(samples, scale, from, to)
    if (described !== null) stretches.push({ from, to, ...described })
  })
  return stretches
}

function fromBlocks(scan: Scan, scale: Stabilised, first: number, end: number) {
  const y: number[] = []
  let hidden = 0
  for (let b = first; b < end; b++) {
    const mean = scan.mean_A[b]
    if (!(scan.noise_A[b] >= 0)) continue
    y.push(scale.y(mean))
    hidden += (scan.noise_A[b] / scale.deviationAt(mean)) ** 2
  }
  if (y.length === 0) return null
  const moments = innerMoments(Float64Array.from(y))
  return { y: moments.y, variance: moments.variance + hidden / y.length }
}

function fromSamples(samples: Samples, scale: Stabilised, from: number, to: number) {
  const y = Float64Array.from(samples.read(from, to), (x) => scale.y(x)).filter(Number.isFinite)
  return y.length === 0 ? null : innerMoments(y)
}
