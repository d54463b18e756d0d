/** Repeated readings as inputs of a measurement: type A evaluation (JCGM 100, 4.2 and 5.2.3). */
import { compensatedSum } from '../numeric/sum.ts'
import type { Correlation, Estimate } from './estimate.ts'

/**
 * Means of quantities read n times, their standard uncertainties (eq. 5) with n − 1 degrees of freedom, and the
 * correlation of the means (eq. 14 and 17). The k-th reading of every series was taken at one time; that is what
 * correlates them. RangeError on fewer than two readings or series of unequal length.
 */
export function observed(series: readonly (readonly number[])[]): {
  readonly estimates: readonly Estimate[]
  readonly correlation: Correlation
} {
  const n = series[0]?.length ?? 0
  if (n < 2 || series.some((readings) => readings.length !== n))
    throw new RangeError(
      `repeated readings need two or more, as many in every series: ${series.map((s) => s.length)}`,
    )
  const means = series.map((readings) => compensatedSum(readings) / n)
  const residuals = series.map((readings, i) => readings.map((reading) => reading - means[i]))
  const products = (a: readonly number[], b: readonly number[]): number =>
    compensatedSum(a.map((x, k) => x * b[k]))
  const squares = residuals.map((r) => products(r, r))
  return {
    estimates: means.map((value, i) => ({ value, u: Math.sqrt(squares[i] / (n * (n - 1))), dof: n - 1 })),
    correlation: residuals.map((a, i) =>
      residuals.map((b, j) => {
        if (i === j) return 1
        const scale = Math.sqrt(squares[i] * squares[j])
        return scale === 0 ? 0 : Math.max(-1, Math.min(1, products(a, b) / scale))
      }),
    ),
  }
}
