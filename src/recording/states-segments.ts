/** From samples to segments: levels found, the cheapest path through them, levels found again from its segments, and again. */
import { type Level, levelsOf } from './levels.ts'
import { type Stabilised, stabilise } from './stabilise.ts'
import { correlationOf } from './stabilise-correlation.ts'
import { digitOf } from './stabilise-digit.ts'
import { describe } from './states-description.ts'
import { discover, type Stretch } from './states-discover.ts'
import { cheapestPath, type Path } from './states-path.ts'
import type { Samples } from './states-samples.ts'
import { meanNearMiddle, type Scan, scanSamples } from './states-scan.ts'
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
const PLACES = 8
const SAMPLES_AT_A_PLACE = 32

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
    if (round === 0) stretches = stretchesOf(path, samples, scale, penalty)
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

/** The segments of a path, each described by samples of it. */
function stretchesOf(path: Path, samples: Samples, scale: Stabilised, penalty: number): Stretch[] {
  const stretches: Stretch[] = []
  path.starts.forEach((from, k) => {
    const to = k + 1 < path.starts.length ? path.starts[k + 1] : samples.count
    const y = samplesOfSegment(samples, scale, from, to)
    if (y.length > 0) stretches.push({ from, to, ...describe(y, penalty) })
  })
  return stretches
}

/** All of a short segment on the stabilised scale; of a longer one places spread over it. */
function samplesOfSegment(samples: Samples, scale: Stabilised, from: number, to: number): Float64Array {
  if (to - from <= PLACES * SAMPLES_AT_A_PLACE) return known(samples.read(from, to), scale)
  const y: number[] = []
  const last = to - SAMPLES_AT_A_PLACE
  for (let k = 0; k < PLACES; k++) {
    const first = Math.round(from + ((last - from) * k) / (PLACES - 1))
    y.push(...known(samples.read(first, first + SAMPLES_AT_A_PLACE), scale))
  }
  return Float64Array.from(y)
}

function known(values: Float32Array | Float64Array, scale: Stabilised): Float64Array {
  return Float64Array.from(values, (x) => scale.y(x)).filter(Number.isFinite)
}
