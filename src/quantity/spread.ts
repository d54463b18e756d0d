/** Estimate, standard uncertainty and quantiles of what a writer said about a number; all in its base units. */
import { normalCdf, normalQuantile } from '../numeric/normal.ts'
import type { Uncertain } from './uncertain.ts'

const Z95 = normalQuantile(0.95)

type Skewed = Extract<Uncertain, { kind: 'skewed' }>

/** The one number to use where only one can be: the value written, the middle of a range or limit, the median. */
export function best(value: Uncertain): number {
  return value.kind === 'skewed' ? value.typical : meanOf(value)
}

/** Expectation (JCGM 100, 4.3.7 for the rectangular laws). */
export function meanOf(value: Uncertain): number {
  switch (value.kind) {
    case 'exact':
    case 'normal':
      return value.value
    case 'uniform':
      return (value.low + value.high) / 2
    case 'below':
      return value.limit / 2
    case 'skewed':
      return momentsOf(value).mean
  }
}

/** Standard deviation of the law, which is the standard uncertainty (JCGM 100, 4.3). */
export function standardUncertainty(value: Uncertain): number {
  switch (value.kind) {
    case 'exact':
      return 0
    case 'normal':
      return value.u
    case 'uniform':
      return (value.high - value.low) / Math.sqrt(12) // JCGM 100 eq. 7
    case 'below':
      return value.limit / Math.sqrt(12)
    case 'skewed':
      return momentsOf(value).deviation
  }
}

/** Value that is not exceeded with probability `p`, 0 < p < 1; RangeError otherwise. */
export function quantileOf(value: Uncertain, p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability lies between 0 and 1, not ${p}`)
  switch (value.kind) {
    case 'exact':
      return value.value
    case 'normal':
      return value.value + value.u * normalQuantile(p)
    case 'uniform':
      return value.low + (value.high - value.low) * p
    case 'below':
      return value.limit * p
    case 'skewed':
      return skewedQuantile(value, normalQuantile(p))
  }
}

const isPositive = ({ typical, p5, p95 }: Skewed): boolean => typical > 0 && p5 > 0 && p95 > 0

/**
 * Two halves of a lognormal law that meet at the median, or of a normal law where a value is not positive; exact at
 * 5, 50 and 95 %. Our own choice: the simplest law with these three quantiles that keeps a positive quantity positive.
 */
function skewedQuantile(value: Skewed, z: number): number {
  const { typical, p5, p95 } = value
  const side = z < 0 ? p5 : p95
  const reach = Math.abs(z) / Z95
  return isPositive(value) ? typical * (side / typical) ** reach : typical + (side - typical) * reach
}

/** Integrals of the quantile function above over each half of the normal law, in closed form. */
function momentsOf(value: Skewed): { mean: number; deviation: number } {
  const { typical, p5, p95 } = value
  if (isPositive(value)) {
    const a = Math.log(p5 / typical) / Z95
    const b = Math.log(p95 / typical) / Z95
    // E[e^(k a |z|) on one half] = e^(k² a² / 2) Φ(k a), by completing the square.
    const first = Math.exp((a * a) / 2) * normalCdf(a) + Math.exp((b * b) / 2) * normalCdf(b)
    const second = Math.exp(2 * a * a) * normalCdf(2 * a) + Math.exp(2 * b * b) * normalCdf(2 * b)
    return { mean: typical * first, deviation: typical * Math.sqrt(Math.max(0, second - first * first)) }
  }
  const a = (p5 - typical) / Z95
  const b = (p95 - typical) / Z95
  const shift = (a + b) / Math.sqrt(2 * Math.PI) // E|z| on one half is 1/√(2π), E z² is 1/2
  return { mean: typical + shift, deviation: Math.sqrt((a * a + b * b) / 2 - shift * shift) }
}
