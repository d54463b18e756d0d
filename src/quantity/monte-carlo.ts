/** Propagation of distributions by a Monte Carlo method (JCGM 101:2008), for models that bend and laws that are not normal. */
import type { Stream } from '../numeric/random.ts'
import { compensatedSum } from '../numeric/sum.ts'

/** One draw of an input. */
export type Sampler = (stream: Stream) => number

export interface Sampled {
  readonly value: number
  /** Standard uncertainty. */
  readonly u: number
  /** Model values in rising order: the output's distribution (7.5). */
  readonly sorted: Float64Array
}

export interface Interval {
  readonly low: number
  readonly high: number
}

/**
 * The model's distribution from `trials` independent draws, two or more (RangeError otherwise). Inputs are drawn in
 * order from `stream`; the model must not keep the array it is given. A model value that is not finite is a RangeError.
 */
export function monteCarlo(
  model: (inputs: readonly number[]) => number,
  inputs: readonly Sampler[],
  trials: number,
  stream: Stream,
): Sampled {
  if (!(Number.isInteger(trials) && trials >= 2))
    throw new RangeError(`trials are two or more, not ${trials}`)
  const sorted = new Float64Array(trials)
  const draw = new Array<number>(inputs.length).fill(0)
  for (let trial = 0; trial < trials; trial++) {
    for (let i = 0; i < draw.length; i++) draw[i] = inputs[i](stream)
    sorted[trial] = model(draw)
    if (!Number.isFinite(sorted[trial]))
      throw new RangeError(`the model gives ${sorted[trial]} for the inputs ${draw.join(', ')}`)
  }
  sorted.sort()
  const value = compensatedSum(sorted) / trials // eq. 16
  const squares = compensatedSum(sorted.map((y) => (y - value) ** 2))
  return { value, u: Math.sqrt(squares / (trials - 1)), sorted } // eq. 17
}

/** Interval that leaves the same probability on each side (7.7.2). */
export function symmetricInterval(sorted: ArrayLike<number>, probability: number): Interval {
  const inside = valuesInside(sorted, probability)
  const outside = sorted.length - inside
  const first = Math.ceil(outside / 2) - 1 // r of 7.7.2 counts from 1
  return { low: sorted[first], high: sorted[first + inside] }
}

/** Shortest interval (7.7.3); with a law of several peaks it may not be the only one, and the lowest is given. */
export function shortestInterval(sorted: ArrayLike<number>, probability: number): Interval {
  const inside = valuesInside(sorted, probability)
  let first = 0
  for (let i = 1; i + inside < sorted.length; i++)
    if (sorted[i + inside] - sorted[i] < sorted[first + inside] - sorted[first]) first = i
  return { low: sorted[first], high: sorted[first + inside] }
}

/** q of 7.7.1; there must be values left outside (7.2.1). */
function valuesInside(sorted: ArrayLike<number>, probability: number): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`a coverage probability lies between 0 and 1, not ${probability}`)
  const inside = Math.floor(probability * sorted.length + 0.5)
  if (inside >= sorted.length)
    throw new RangeError(`${sorted.length} values are too few for a coverage of ${probability}`)
  return inside
}
