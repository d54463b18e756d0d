/** The standard normal distribution. */

/** Density at `z`. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)

/**
 * Probability below `z`, to about 1e-15 absolute and, in the tails, relative to their size: a Maclaurin series near
 * the middle, and beyond it the continued fraction for the upper tail (Abramowitz & Stegun 26.2.10 and 26.2.14).
 */
export function normalCdf(z: number): number {
  const a = Math.abs(z)
  if (a < 3) {
    let term = a
    let sum = a
    for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum); n++) {
      term *= (a * a) / (2 * n + 1)
      sum += term
    }
    const half = normalDensity(a) * sum // A&S 26.2.11
    return z >= 0 ? 0.5 + half : 0.5 - half
  }
  if (a > 39) return z > 0 ? 1 : 0
  let fraction = a
  for (let n = 60; n >= 1; n--) fraction = a + n / fraction
  const tail = normalDensity(a) / fraction
  return z > 0 ? 1 - tail : tail
}

const A = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
]
const B = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1,
]
const C = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
]
const D = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416]

/** Acklam's rational approximation of the quantile, relative error below 1.15e-9. */
export function normalQuantileFast(p: number): number {
  if (p < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(p))
    return (
      (((((C[0] * q + C[1]) * q + C[2]) * q + C[3]) * q + C[4]) * q + C[5]) /
      ((((D[0] * q + D[1]) * q + D[2]) * q + D[3]) * q + 1)
    )
  }
  if (p > 0.97575) return -normalQuantileFast(1 - p)
  const q = p - 0.5
  const r = q * q
  return (
    ((((((A[0] * r + A[1]) * r + A[2]) * r + A[3]) * r + A[4]) * r + A[5]) * q) /
    (((((B[0] * r + B[1]) * r + B[2]) * r + B[3]) * r + B[4]) * r + 1)
  )
}

/** Quantile of probability `p`, 0 < p < 1 (RangeError otherwise): Acklam's value after one step of Halley's method. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability lies between 0 and 1, not ${p}`)
  if (p > 0.5) return -normalQuantile(1 - p) // the lower tail keeps its digits
  const z = normalQuantileFast(p)
  const error = (normalCdf(z) - p) / normalDensity(z)
  return z - error / (1 + (z * error) / 2)
}
