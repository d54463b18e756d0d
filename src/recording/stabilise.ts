/**
 * A scale on which noise is the same at every level. How noise grows with the level is read off the recording; the scale
 * is y(x) = ∫ dx / σ(x) (Bartlett 1947, Biometrics 3, 39), so that one unit of y is one standard deviation anywhere.
 * Between levels that occur, σ is taken along a straight line in log σ over log x. Near zero current the scale is linear.
 */
import { quantileSorted } from '../numeric/quantile.ts'
import type { Scan } from './states-scan.ts'
import { SCAN_BLOCK } from './states-scan.ts'

export interface NoiseAt {
  readonly level_A: number
  /** Standard deviation of a sample: noise, ripple, bursts, hum and rounding together. */
  readonly deviation_A: number
}

export interface Stabilised {
  readonly noise: readonly NoiseAt[]
  /** Standard deviation of what wanders more slowly than a block of samples: hum, which adds alike to every level. */
  readonly hum_A: number
  /** The stabilised value of a current in A. */
  y(x: number): number
  /** Deviation of a sample in A at a level. */
  deviationAt(x: number): number
  /** Part of its square that is slow, 0 to 1. */
  slowAt(x: number): number
  /** Deviations that the means of one state may differ by, at a level: noise left in a mean, and drift. */
  spreadAt(x: number): number
}

/** Noise below this share of the level is as good as none. */
const LEAST_RELATIVE_DEVIATION = 0.01
/** Visits to one state differ by so many deviations of a sample, or by this share of the level, for no reason. */
const SPREAD_DEVIATIONS = 0.5
const SPREAD_SHARE = 0.02
const BINS_PER_OCTAVE = 4
const FEWEST_BLOCKS = 4
/** Of a long recording, so many blocks spread over it are looked at. */
const MOST_BLOCKS = 200_000
/** Longest time over which a swing counts as hum: more than a period of 50 Hz. */
const HUM_WINDOW_S = 0.022
/** Within a window of one state, block means differ by less than this share of their mean. */
const ONE_STATE = 1.5
/** Points of the tabulated scale per factor e of the current. */
const POINTS_PER_E = 64

/**
 * `digit_A`: step of the reading, 0 where there is none. `correlation`: deviation of a sample over the deviation that
 * steps between neighbours show. Throws RangeError when no sample is known.
 */
export function stabilise(scan: Scan, interval_s: number, digit_A: number, correlation: number): Stabilised {
  const { noise, hum_A } = noiseByLevel(scan, interval_s, digit_A, correlation)
  const least = Math.min(...noise.map(({ deviation_A }) => deviation_A))
  const deviationAt = (x: number) => interpolate(noise, Math.abs(x), least)
  let top = 0
  for (let b = 0; b < scan.blocks; b++)
    if (scan.noise_A[b] >= 0) top = Math.max(top, Math.abs(scan.max_A[b]), Math.abs(scan.min_A[b]))
  // u = asinh(x / least) runs evenly over the table; dx = least · cosh u · du.
  const last = Math.ceil(Math.asinh(Math.max(top, least) / least) * POINTS_PER_E) + 1
  const table = new Float64Array(last + 1)
  for (let k = 1; k <= last; k++) {
    const u = (k - 0.5) / POINTS_PER_E
    table[k] = table[k - 1] + (least * Math.cosh(u)) / (POINTS_PER_E * deviationAt(least * Math.sinh(u)))
  }
  return {
    noise,
    hum_A,
    deviationAt,
    slowAt: (x) => Math.min((hum_A / deviationAt(x)) ** 2, 1),
    spreadAt: (x) =>
      Math.hypot(SPREAD_DEVIATIONS, Math.max(SPREAD_SHARE * Math.abs(x), digit_A / 2) / deviationAt(x)),
    y: (x) => {
      const place = Math.min(Math.asinh(Math.abs(x) / least) * POINTS_PER_E, last - 1e-9)
      const below = Math.floor(place)
      const y = table[below] + (place - below) * (table[below + 1] - table[below])
      return x < 0 ? -y : y
    },
  }
}

interface LevelBin {
  readonly levels: number[]
  readonly quick: number[]
  readonly slow: number[]
}

/** Medians over the blocks whose means lie in one quarter of an octave. */
function noiseByLevel(
  scan: Scan,
  interval_s: number,
  digit_A: number,
  correlation: number,
): { noise: NoiseAt[]; hum_A: number } {
  const bins = binsByLevel(scan, interval_s)
  const full = bins.filter(({ levels }) => levels.length >= FEWEST_BLOCKS)
  const used = full.length > 0 ? full : bins
  if (used.length === 0) throw new RangeError('no sample of the recording is a number')
  const least = Math.max(smallestAboveZero(scan), digit_A / 2)
  const quickSquare = ({ levels, quick }: LevelBin) =>
    (correlation * median(quick)) ** 2 + (LEAST_RELATIVE_DEVIATION * median(levels)) ** 2 + least ** 2
  // Hum is read off where most windows hold one state: at rest, as a rule.
  const calm = used.reduce((a, b) => (b.slow.length > a.slow.length ? b : a))
  const seen = calm.slow.length >= FEWEST_BLOCKS ? median(calm.slow) - quickSquare(calm) / SCAN_BLOCK : 0
  const humSquare = Math.max(seen, 0)
  const noise = used.map((bin) => ({
    level_A: median(bin.levels),
    deviation_A: Math.sqrt(quickSquare(bin) + humSquare),
  }))
  return { noise: noise.sort((a, b) => a.level_A - b.level_A), hum_A: Math.sqrt(humSquare) }
}

function binsByLevel(scan: Scan, interval_s: number): LevelBin[] {
  const window = Math.max(2, Math.ceil(HUM_WINDOW_S / (interval_s * SCAN_BLOCK)))
  const bins = new Map<number, LevelBin>()
  const stride = Math.max(1, Math.floor(scan.blocks / MOST_BLOCKS))
  for (let b = 0; b < scan.blocks; b += stride) {
    const level = Math.abs(scan.mean_A[b])
    if (!(scan.noise_A[b] >= 0)) continue
    const key = level > 0 ? Math.round(BINS_PER_OCTAVE * Math.log2(level)) : Number.NEGATIVE_INFINITY
    const bin = bins.get(key) ?? { levels: [], quick: [], slow: [] }
    bins.set(key, bin)
    bin.levels.push(level)
    bin.quick.push(scan.noise_A[b])
    const swing = windowVariance(scan.mean_A, b, b + window)
    if (swing !== null) bin.slow.push(swing)
  }
  return [...bins.values()]
}

/** Keeps the scale finite for a recording without any noise: a ten-thousandth of the least mean that is not zero. */
function smallestAboveZero(scan: Scan): number {
  let smallest = Number.POSITIVE_INFINITY
  for (const mean of scan.mean_A) if (Math.abs(mean) > 0) smallest = Math.min(smallest, Math.abs(mean))
  return smallest === Number.POSITIVE_INFINITY ? 1e-12 : 1e-4 * smallest
}

/** Variance of block means from … to − 1; null where they belong to more than one state. */
function windowVariance(means: Float32Array, from: number, to: number): number | null {
  if (to > means.length) return null
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  let sum = 0
  let square = 0
  for (let b = from; b < to; b++) {
    const mean = means[b]
    if (Number.isNaN(mean)) return null
    low = Math.min(low, mean)
    high = Math.max(high, mean)
    sum += mean
    square += mean * mean
  }
  const n = to - from
  if (high - low > ONE_STATE * Math.abs(sum / n)) return null
  return Math.max(square - (sum * sum) / n, 0) / (n - 1)
}

function median(values: readonly number[]): number {
  return quantileSorted(Float64Array.from(values).sort(), 0.5)
}

function interpolate(noise: readonly NoiseAt[], x: number, least: number): number {
  const k = noise.findIndex(({ level_A }) => level_A >= x)
  if (k === 0 || x === 0) return Math.max(noise[0].deviation_A, least)
  const last = noise[noise.length - 1]
  if (k === -1) return (last.deviation_A * x) / Math.max(last.level_A, least)
  const [a, b] = [noise[k - 1], noise[k]]
  const from = Math.log(Math.max(a.level_A, least))
  const part = (Math.log(x) - from) / (Math.log(b.level_A) - from)
  if (!(part > 0)) return a.deviation_A
  return a.deviation_A * (b.deviation_A / a.deviation_A) ** Math.min(part, 1)
}
