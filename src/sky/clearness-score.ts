/**
 * A daily law as a look-up over the Gaussian score of the day: k(z) = F⁻¹(Φ(z)). An AR(1) of scores then gives days
 * that follow the law exactly and hang together (Graham, Hollands & Brunger, Solar Energy 40 (1988) 83-92).
 */
import { normalCdf, normalDensity } from '../numeric/normal.ts'
import { brent } from '../numeric/root.ts'
import type { ClearnessLaw } from './daily-law.ts'

/** Scores beyond ±5 (once in 4700 years of days) count as ±5. */
export const SCORE_LIMIT = 5
/** Intervals of the uniform grid over −5..5. */
export const SCORE_CELLS = 400

/** Clearness at the SCORE_CELLS + 1 nodes of the grid. */
export function scoreTable(law: ClearnessLaw): Float64Array {
  const table = new Float64Array(SCORE_CELLS + 1)
  for (let i = 0; i <= SCORE_CELLS; i++)
    table[i] = law.quantile(normalCdf(-SCORE_LIMIT + (2 * SCORE_LIMIT * i) / SCORE_CELLS))
  return table
}

/** Terms of the Hermite series; at 12 the rest is below 1e-3 of the variance for |φ| < 0.9. */
const TERMS = 12

/** Share of the variance of k(z) in each Hermite polynomial 1..TERMS, so that lag-one = Σ share(n) φⁿ. */
function hermiteShares(table: Float64Array): number[] {
  const h = (2 * SCORE_LIMIT) / SCORE_CELLS
  const coefficients = new Array<number>(TERMS + 1).fill(0)
  let square = 0
  for (let i = 0; i <= SCORE_CELLS; i++) {
    const z = -SCORE_LIMIT + i * h
    const weight = normalDensity(z) * h
    square += weight * table[i] ** 2
    let before = 0
    let now = 1 // normalised Hermite polynomials: √(n+1) h(n+1) = z h(n) − √n h(n−1)
    for (let n = 0; n <= TERMS; n++) {
      coefficients[n] += weight * table[i] * now
      const next = (z * now - Math.sqrt(n) * before) / Math.sqrt(n + 1)
      before = now
      now = next
    }
  }
  const variance = square - coefficients[0] ** 2
  return coefficients.slice(1).map((c) => c ** 2 / variance)
}

const atPower = (shares: readonly number[], phi: number): number =>
  shares.reduceRight((sum, share) => phi * (sum + share), 0)

/** Lag-one autocorrelation of clearness where the scores' own is `phi`, −1 < phi < 1 (Mehler's formula). */
export const lagOneOfClearness = (table: Float64Array, phi: number): number =>
  atPower(hermiteShares(table), phi)

/** Lag-one of the scores that gives clearness the lag-one `asked`, −0.5 to 0.9; RangeError outside. */
export function scoreLagOne(table: Float64Array, asked: number): number {
  if (!(asked >= -0.5 && asked <= 0.9))
    throw new RangeError(`persistence of clearness lies between -0.5 and 0.9, not ${asked}`)
  const shares = hermiteShares(table)
  return brent((phi) => atPower(shares, phi) - asked, -0.999, 0.999, 1e-10)
}
