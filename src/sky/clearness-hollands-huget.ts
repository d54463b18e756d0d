/**
 * The law of daily clearness of Hollands & Huget, "A probability density function for the clearness index, with
 * applications", Solar Energy 30 (1983) 195-209: f(k) = C (1 − k/ku) e^{λk} on 0..ku. It starts at zero, so it has more
 * very dark days than the bounded law. Written with t = k/ku and x = λ ku; sums take over near x = 0, where the closed
 * forms cancel.
 */
import { brent } from '../numeric/root.ts'
import type { ClearnessLaw } from './daily-law.ts'

/** Clearness of the brightest possible day, from memory. */
const BRIGHTEST = 0.864

/** The published fit of λ for a monthly mean 0.2 to 0.75; its mean is off by up to 0.003. */
export function publishedLambda(mean: number): number {
  const g = BRIGHTEST / (BRIGHTEST - mean)
  return (2 * g - 17.519 * Math.exp(-1.3118 * g) - 1062 * Math.exp(-5.0426 * g)) / BRIGHTEST // H & H (1983) fit of λ
}

/** Below this |x| the closed forms cancel and a Taylor series of `TERMS` terms is exact to rounding. */
const SMALL = 1
const TERMS = 22

/** Σ a(n) xⁿ / (n + shift)! for n from 0. */
function taylor(x: number, shift: number, coefficient: (n: number) => number): number {
  let factor = 1
  for (let n = 2; n <= shift; n++) factor /= n
  let sum = 0
  for (let n = 0; n < TERMS; n++) {
    sum += coefficient(n) * factor
    factor *= x / (n + shift + 1)
  }
  return sum
}

/** ∫₀ᵗ (1 − s) e^{xs} ds, times e^{−x} where x > SMALL so that it cannot overflow. */
function mass(x: number, t: number): number {
  if (Math.abs(x) < SMALL) return taylor(x, 2, (n) => t ** (n + 1) * (n + 2 - (n + 1) * t))
  const shrink = Math.max(x, 0)
  return ((x * (1 - t) + 1) * Math.exp(x * t - shrink) - (x + 1) * Math.exp(-shrink)) / x ** 2
}

/** ∫₀¹ s (1 − s) e^{xs} ds, scaled as `mass` is. */
function firstMoment(x: number): number {
  if (Math.abs(x) < SMALL) return taylor(x, 3, (n) => n + 1)
  const shrink = Math.max(x, 0)
  return ((x - 2) * Math.exp(x - shrink) + (x + 2) * Math.exp(-shrink)) / x ** 3
}

const unitMean = (x: number): number => firstMoment(x) / mass(x, 1)

/** λ with which the mean is exactly as asked; RangeError unless 0.01 <= mean <= 0.84. */
export function solvedLambda(mean: number): number {
  if (!(mean >= 0.01 && mean <= 0.84))
    throw new RangeError(`the Hollands-Huget law holds for mean clearness 0.01 to 0.84, not ${mean}`)
  return brent((x) => unitMean(x) - mean / BRIGHTEST, -200, 200, 1e-12) / BRIGHTEST
}

/** The law for a given λ. */
export function hollandsHugetLawOf(lambda: number): ClearnessLaw {
  const x = lambda * BRIGHTEST
  const whole = mass(x, 1)
  const cdf = (k: number): number => mass(x, Math.min(Math.max(k / BRIGHTEST, 0), 1)) / whole
  return {
    mean: BRIGHTEST * unitMean(x),
    low: 0,
    high: BRIGHTEST,
    density(k) {
      if (k < 0 || k > BRIGHTEST) return 0
      const t = k / BRIGHTEST
      return ((1 - t) * Math.exp(x * t - (x > SMALL ? x : 0))) / (BRIGHTEST * whole)
    },
    cdf,
    quantile: (p) => (p <= 0 ? 0 : p >= 1 ? BRIGHTEST : brent((k) => cdf(k) - p, 0, BRIGHTEST, 1e-12)),
  }
}

/** The Hollands-Huget law with exactly the given mean. */
export const hollandsHugetLaw = (mean: number): ClearnessLaw => hollandsHugetLawOf(solvedLambda(mean))
