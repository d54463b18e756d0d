/** What an uncertain number says: its best value, mean, standard uncertainty, and its quantile function for drawing. */
import { normalCdf, normalQuantile } from '../numeric/normal.ts'
import type { Uncertain } from './uncertain.ts'

/** Score of the 95 % point, at which a skewed number's ends are met exactly. */
const Z95 = normalQuantile(0.95)

/** The single number to compute with: the stated value, the middle of a range, half of a limit. */
export function best(x: Uncertain): number {
  switch (x.kind) {
    case 'exact':
    case 'normal':
      return x.value
    case 'uniform':
      return (x.low + x.high) / 2
    case 'below':
      return x.limit / 2
    case 'skewed':
      return x.typical
  }
}

/** Expectation. */
export function meanOf(x: Uncertain): number {
  return x.kind === 'skewed' ? skewedMoments(x).mean : best(x)
}

/** Standard deviation: JCGM 100, 4.3.7 for rectangular laws. */
export function standardUncertainty(x: Uncertain): number {
  switch (x.kind) {
    case 'exact':
      return 0
    case 'normal':
      return x.u
    case 'uniform':
      return (x.high - x.low) / Math.sqrt(12)
    case 'below':
      return x.limit / Math.sqrt(12)
    case 'skewed':
      return skewedMoments(x).deviation
  }
}

/** Value below which the number lies with probability `p`, 0 < p < 1 (RangeError otherwise). */
export function quantileOf(x: Uncertain, p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability lies between 0 and 1, not ${p}`)
  switch (x.kind) {
    case 'exact':
      return x.value
    case 'normal':
      return x.value + x.u * normalQuantile(p)
    case 'uniform':
      return x.low + p * (x.high - x.low)
    case 'below':
      return p * x.limit
    case 'skewed': {
      const z = normalQuantile(p)
      const side = z < 0 ? x.p5 : x.p95
      const reach = Math.abs(z) / Z95
      return isPositive(x) ? x.typical * (side / x.typical) ** reach : x.typical + (side - x.typical) * reach
    }
  }
}

type Skewed = Extract<Uncertain, { kind: 'skewed' }>

/** A number that is positive over its whole range stays positive: its two halves are lognormal instead of normal. */
const isPositive = ({ typical, p5 }: Skewed): boolean => typical > 0 && p5 > 0

/** Two half-laws joined at the median, each with its own width. */
function skewedMoments(x: Skewed): { mean: number; deviation: number } {
  const halves = isPositive(x)
    ? [lognormalHalf(Math.log(x.p5 / x.typical) / Z95), lognormalHalf(Math.log(x.p95 / x.typical) / Z95)]
    : [normalHalf((x.p5 - x.typical) / Z95), normalHalf((x.p95 - x.typical) / Z95)]
  const first = halves[0].first + halves[1].first
  const second = halves[0].second + halves[1].second
  return isPositive(x)
    ? { mean: x.typical * first, deviation: x.typical * Math.sqrt(second - first * first) }
    : { mean: x.typical + first, deviation: Math.sqrt(second - first * first) }
}

/** ∫₀^∞ e^{sz} φ(z) dz and the same of its square; `s` negative for the lower half. */
const lognormalHalf = (s: number) => ({
  first: Math.exp((s * s) / 2) * normalCdf(s),
  second: Math.exp(2 * s * s) * normalCdf(2 * s),
})

/** ∫₀^∞ s z φ(z) dz and the same of its square. */
const normalHalf = (s: number) => ({ first: s / Math.sqrt(2 * Math.PI), second: (s * s) / 2 })
