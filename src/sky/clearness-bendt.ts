/**
 * The bounded exponential law of daily clearness: Bendt, Collares-Pereira & Rabl, "The frequency distribution of
 * daily insolation values", Solar Energy 27 (1981) 1-5; upper bound after Hollands & Huget (1983) and the fitted
 * exponent after Herzog (1985), both as in Duffie & Beckman, section 2.9. The exponent used for drawing is solved, so
 * that the mean is exactly as asked; the fitted one is kept for the check against the published tables.
 */
import { brent } from '../numeric/root.ts'
import type { ClearnessLaw } from './daily-law.ts'

/** Below this mean the fit of the upper bound falls off a cliff (its eighth power), so it is held there. */
const LOWEST_FITTED_MEAN = 0.2

/** Clearness of the brightest day of a month with the given mean; fitted for 0.2 to 0.75, held constant below. */
export function bendtUpperBound(mean: number): number {
  const fitted = Math.max(mean, LOWEST_FITTED_MEAN)
  return 0.6313 + 0.267 * fitted - 11.9 * (fitted - 0.75) ** 8 // Hollands & Huget (1983)
}

/** Herzog's fit of the exponent: the mean comes out within 0.002 for means of 0.30 to 0.70. */
export function herzogExponent(mean: number, low: number, high: number): number {
  const xi = (high - low) / (high - mean)
  return -1.498 + (1.184 * xi - 27.182 * Math.exp(-1.5 * xi)) / (high - low) // Duffie & Beckman 2.9.7
}

/** Mean of exp(x t) on 0..1 as a probability law: 1/2 at x = 0, rising from 0 to 1. */
function unitMean(x: number): number {
  if (Math.abs(x) < 1e-3) return 0.5 + x / 12 - x ** 3 / 720
  return -1 / Math.expm1(-x) - 1 / x
}

/** The exponent with which the law on `low`..`high` has the asked mean; RangeError unless low < mean < high. */
export function bendtExponent(mean: number, low: number, high: number): number {
  if (!(mean > low && mean < high))
    throw new RangeError(`a mean clearness of ${mean} does not lie between the bounds ${low} and ${high}`)
  const share = (mean - low) / (high - low)
  const widest = 2 / Math.min(share, 1 - share)
  return brent((x) => unitMean(x) - share, -widest, widest, 1e-13) / (high - low) // Bendt et al. 1981, mean of (5)
}

/** The law for an exponent and bounds: F(k) = (e^{γ low} − e^{γ k}) / (e^{γ low} − e^{γ high}). */
export function bendtLawOf(exponent: number, low: number, high: number): ClearnessLaw {
  const width = high - low
  const x = exponent * width
  const flat = Math.abs(x) < 1e-9
  const whole = Math.expm1(x)
  return {
    mean: low + width * unitMean(x),
    low,
    high,
    density: (k) =>
      k < low || k > high ? 0 : flat ? 1 / width : (exponent * Math.exp(exponent * (k - low))) / whole,
    cdf(k) {
      const t = Math.min(Math.max((k - low) / width, 0), 1)
      return flat ? t : Math.expm1(x * t) / whole // Duffie & Beckman 2.9.6
    },
    quantile: (p) => low + width * (flat ? p : Math.log1p(p * whole) / x),
  }
}

/** The Bendt law with exactly the given mean; `floor` is its lower bound. RangeError unless floor < mean < 0.83. */
export function bendtLaw(mean: number, floor: number): ClearnessLaw {
  const high = bendtUpperBound(mean)
  return bendtLawOf(bendtExponent(mean, floor, high), floor, high)
}
