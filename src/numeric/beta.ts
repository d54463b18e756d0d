/** The regularised incomplete beta function I_x(a, b) and its inverse: the distribution function of the beta law. */
import { logBeta } from './log-gamma.ts'

/**
 * I_x(a, b), 0 <= x <= 1, a and b > 0 (RangeError otherwise); relative error about 1e-14 for a and b up to 1000, growing
 * as 1e-15 times the larger of them. `complement` is 1 − x, for callers that have it to more digits.
 */
export function regularisedBeta(x: number, a: number, b: number, complement = 1 - x): number {
  check(x, a, b)
  if (x === 0 || complement === 0) return x === 0 ? 0 : 1
  const lower = x < (a + 1) / (a + b + 2)
  return lower ? leading(x, complement, a, b) : 1 - leading(complement, x, b, a)
}

/** The x for which I_x(a, b) = p, 0 <= p <= 1: Newton's method, kept inside a bracket that bisection shrinks. */
export function inverseRegularisedBeta(p: number, a: number, b: number): number {
  check(p, a, b)
  if (p === 0 || p === 1) return p
  let low = 0
  let high = 1
  // For small x, I_x(a, b) is nearly x^a / (a B(a, b)) (DLMF 8.17.7).
  const small = Math.exp((Math.log(p * a) + logBeta(a, b)) / a)
  let x = small > 0 && small < 0.5 ? small : 0.5
  for (let i = 0; i < 1200; i++) {
    const error = regularisedBeta(x, a, b) - p
    if (error < 0) low = x
    else high = x
    const slope = Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - logBeta(a, b))
    const newton = x - error / slope
    const next = newton > low && newton < high ? newton : low + (high - low) / 2
    if (Math.abs(next - x) <= 1e-15 * x || next === 0) return next
    x = next
  }
  return x
}

/** x^a (1 − x)^b / (a B(a, b)) times the continued fraction DLMF 8.17.22, quick to converge below the mean. */
function leading(x: number, complement: number, a: number, b: number): number {
  const logX = x < 0.5 ? Math.log(x) : Math.log1p(-complement)
  const logComplement = x < 0.5 ? Math.log1p(-x) : Math.log(complement)
  return (Math.exp(a * logX + b * logComplement - logBeta(a, b)) / a) * continuedFraction(x, a, b)
}

/** Lentz's method as modified by Thompson & Barnett (1986). */
function continuedFraction(x: number, a: number, b: number): number {
  const nonZero = (y: number) => (Math.abs(y) < 1e-300 ? 1e-300 : y)
  let c = 1
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)) // DLMF 8.17.23, d(2m)
    d = 1 / nonZero(1 + even * d)
    c = nonZero(1 + even / c)
    fraction *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)) // d(2m + 1)
    d = 1 / nonZero(1 + odd * d)
    c = nonZero(1 + odd / c)
    fraction *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return fraction
}

function check(x: number, a: number, b: number): void {
  if (!(x >= 0 && x <= 1))
    throw new RangeError(`the incomplete beta function is defined from 0 to 1, not at ${x}`)
  if (!(a > 0 && b > 0)) throw new RangeError(`the beta function needs a and b above 0, not ${a} and ${b}`)
}
