/** Logarithms of the gamma and beta functions. */

/** Coefficients of Stirling's series, B(2k) / (2k (2k − 1)) (Abramowitz & Stegun 6.1.41). */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156, -3617 / 122400]

/** Below this an argument is raised by the recurrence; from here on eight terms leave less than 1e-16. */
const LARGE = 10

/** ln Γ(x) less its leading terms (x − 1/2) ln x − x + ln(2π)/2, for x >= 10. */
function stirlingRest(x: number): number {
  const y = 1 / (x * x)
  let sum = 0
  for (let k = STIRLING.length - 1; k >= 0; k--) sum = sum * y + STIRLING[k]
  return sum / x
}

/** ln Γ(x), x > 0 (RangeError otherwise), to about 1e-15 absolute or relative, whichever is larger. */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`the logarithm of gamma needs an argument above 0, not ${x}`)
  let product = 1
  let y = x
  for (; y < LARGE; y++) product *= y
  return (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + stirlingRest(y) - Math.log(product)
}

/**
 * ln B(a, b), a and b > 0. The difference of two large ln Γ is taken by their Stirling series, term by term, so that
 * a large argument costs no digits (after DiDonato & Morris 1992, ACM TOMS algorithm 708).
 */
export function logBeta(a: number, b: number): number {
  const large = Math.max(a, b)
  const small = Math.min(a, b)
  if (large < LARGE) return logGamma(a) + logGamma(b) - logGamma(a + b)
  const difference =
    -(large - 0.5) * Math.log1p(small / large) -
    small * Math.log(large + small) +
    small +
    stirlingRest(large) -
    stirlingRest(large + small)
  return logGamma(small) + difference
}
