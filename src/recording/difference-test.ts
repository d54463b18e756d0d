/** Is a difference more than chance: Welch's t with effective numbers, and Holm's correction for many questions at once. */
import { coverageFactor, studentCdf } from '../numeric/student.ts'

export interface Estimate {
  readonly value: number
  /** Standard uncertainty. */
  readonly u: number
  /** Degrees of freedom of `u`, above zero. */
  readonly freedom: number
}

export interface TestedDifference {
  readonly before: number
  readonly after: number
  readonly difference: number
  /** Standard uncertainty of the difference, and its 95 % interval on its own. */
  readonly u: number
  readonly low: number
  readonly high: number
  /** Probability of a difference as large by chance, for this question alone. */
  readonly p: number
}

const CONFIDENCE = 0.95

/** Welch (1947, Biometrika 34, 28) with degrees of freedom by Satterthwaite (JCGM 100, G.4.1). */
export function testDifference(before: Estimate, after: Estimate): TestedDifference {
  const difference = after.value - before.value
  const [squareBefore, squareAfter] = [before.u ** 2, after.u ** 2]
  const u = Math.sqrt(squareBefore + squareAfter)
  if (u === 0) {
    const p = difference === 0 ? 1 : 0
    return { before: before.value, after: after.value, difference, u, low: difference, high: difference, p }
  }
  const freedom = u ** 4 / (squareBefore ** 2 / before.freedom + squareAfter ** 2 / after.freedom)
  const half = coverageFactor(CONFIDENCE, freedom) * u
  return {
    before: before.value,
    after: after.value,
    difference,
    u,
    low: difference - half,
    high: difference + half,
    p: 2 * studentCdf(-Math.abs(difference) / u, freedom),
  }
}

/**
 * Mean of values in order of time, its uncertainty widened where neighbours hang together: n (1 − r) / (1 + r) of them
 * count, r the correlation of neighbours where above zero (Bayley & Hammersley 1946). Null of fewer than two values.
 */
export function estimateOfMean(values: readonly number[]): Estimate | null {
  const n = values.length
  if (n < 2) return null
  const mean = values.reduce((sum, x) => sum + x / n, 0)
  let square = 0
  let lagged = 0
  values.forEach((x, k) => {
    square += (x - mean) ** 2
    if (k > 0) lagged += (x - mean) * (values[k - 1] - mean)
  })
  const r = square > 0 ? Math.min(Math.max(lagged / square, 0), MOST_CORRELATION) : 0
  const effective = Math.max((n * (1 - r)) / (1 + r), LEAST_EFFECTIVE)
  return { value: mean, u: Math.sqrt(square / (n - 1) / effective), freedom: effective - 1 }
}

const MOST_CORRELATION = 0.95
const LEAST_EFFECTIVE = 1.5

/**
 * Adjusted p-values: what is called a difference where they are below α is wrong anywhere with probability α at most
 * (Holm 1979, Scand. J. Statist. 6, 65), however the questions depend on each other.
 */
export function holm(p: readonly number[]): number[] {
  const order = p.map((_, k) => k).sort((a, b) => p[a] - p[b])
  const adjusted = new Array<number>(p.length)
  let largest = 0
  order.forEach((k, rank) => {
    largest = Math.max(largest, Math.min((p.length - rank) * p[k], 1))
    adjusted[k] = largest
  })
  return adjusted
}
