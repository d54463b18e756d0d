/** Student's t distribution, for any number of degrees of freedom above zero, whole or not; Infinity is the normal law. */
import { inverseRegularisedBeta, regularisedBeta } from './beta.ts'
import { normalCdf, normalQuantile } from './normal.ts'

/** From here on a few terms in 1/ν beat the continued fraction, whose rounding grows with ν. */
const MANY = 1e6

/** Probability below `t`, absolute error below 1e-10, up to 1000 degrees 1e-13 (Abramowitz & Stegun 26.7.1). */
export function studentCdf(t: number, dof: number): number {
  check(dof)
  if (dof === Infinity) return normalCdf(t)
  if (dof > MANY) return normalCdf((t * (1 - 1 / (4 * dof))) / Math.sqrt(1 + (t * t) / (2 * dof))) // A&S 26.7.8
  const square = t * t
  const tail = 0.5 * regularisedBeta(dof / (dof + square), dof / 2, 0.5, square / (dof + square))
  return t > 0 ? 1 - tail : tail
}

/** Quantile of probability `p`, 0 < p < 1; RangeError otherwise. Relative error below 2e-10, up to 1000 degrees 1e-12. */
export function studentQuantile(p: number, dof: number): number {
  check(dof)
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability lies between 0 and 1, not ${p}`)
  if (dof > MANY) {
    const z = normalQuantile(p)
    return z + (z ** 3 + z) / (4 * dof) // A&S 26.7.5
  }
  if (p > 0.5) return -studentQuantile(1 - p, dof)
  if (p === 0.5) return 0
  // t² / (ν + t²) follows a beta law; whichever tail is the smaller one keeps its digits.
  if (p > 0.25) {
    const y = inverseRegularisedBeta(1 - 2 * p, 0.5, dof / 2)
    return -Math.sqrt((dof * y) / (1 - y))
  }
  const x = inverseRegularisedBeta(2 * p, dof / 2, 0.5)
  return -Math.sqrt((dof * (1 - x)) / x)
}

/** t_p(ν): the factor whose interval ± t_p holds the share `p` (JCGM 100, table G.2). */
export const coverageFactor = (p: number, dof: number): number => studentQuantile((1 + p) / 2, dof)

function check(dof: number): void {
  if (!(dof > 0)) throw new RangeError(`degrees of freedom lie above 0, not at ${dof}`)
}
