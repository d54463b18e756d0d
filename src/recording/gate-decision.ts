/**
 * Whether a measured quantity is within its limit, measurement uncertainty allowed for: ISO 14253-1 with its usual
 * conformance probability of 95 % for both parties, computed as JCGM 106:2012 has it for one upper limit. For a normal
 * law this is a guard band of 1.645 u on either side of the limit; between the two nobody can tell.
 */
import { studentCdf } from '../numeric/student.ts'
import type { Estimate } from '../quantity/estimate.ts'
import { meanOf, standardUncertainty } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'

export type Verdict = 'pass' | 'fail' | 'cannot tell'

export interface Decision {
  readonly verdict: Verdict
  /** That the true value is at or below the limit; null where only bounds are known and the limit lies between them. */
  readonly probability: number | null
}

/** ISO 14253-1:2017, 5.3 (from memory): unless agreed otherwise. */
const CONFORMANCE = 0.95

/** p_c = Φ((T_U − y) / u) (JCGM 106, 7.3.2), with Student's t where u itself is known from few values. */
export function decideBelow({ value, u, dof }: Estimate, limit: number): Decision {
  if (u === 0) return decided(value <= limit ? 1 : 0)
  return decided(studentCdf((limit - value) / u, dof ?? Infinity))
}

/**
 * What may lie anywhere between two estimates, with no odds for any place between them: within the limit only where the
 * higher one is, beyond it only where the lower one is.
 */
export function decideBetween(low: Estimate, high: Estimate, limit: number): Decision {
  const [lowest, highest] = [decideBelow(low, limit), decideBelow(high, limit)]
  if (highest.verdict === 'pass') return highest
  return lowest.verdict === 'fail' ? lowest : { verdict: 'cannot tell', probability: null }
}

/**
 * A quantity that may be known only by bounds: what read zero is anywhere below half a digit, so it can lie within a
 * limit and never shows that it does not.
 */
export function decideUncertain(measured: Uncertain, limit: number): Decision {
  switch (measured.kind) {
    case 'below':
      return decideBetween(surely(0), surely(measured.limit * (1 - ROUNDING)), limit)
    case 'uniform':
      return decideBetween(surely(measured.low), surely(measured.high), limit)
    default:
      return decideBelow(asEstimate(measured), limit)
  }
}

/** A bound that was adopted as a budget holds for itself: sums of the same terms in another order differ by less. */
const ROUNDING = 1e-12

const surely = (value: number): Estimate => ({ value, u: 0, dof: Infinity })

function decided(probability: number): Decision {
  const verdict =
    probability >= CONFORMANCE ? 'pass' : probability <= 1 - CONFORMANCE ? 'fail' : 'cannot tell'
  return { verdict, probability }
}

export const asEstimate = (value: Uncertain): Estimate => ({
  value: meanOf(value),
  u: standardUncertainty(value),
  dof: Infinity,
})

/** The highest that a budget allows: the end of its tolerance as written. */
export function upperEnd(budget: Uncertain): number {
  switch (budget.kind) {
    case 'exact':
      return budget.value
    case 'normal':
      return budget.value + 2 * budget.u
    case 'uniform':
      return budget.high
    case 'below':
      return budget.limit
    case 'skewed':
      return budget.p95
  }
}

function lowerEnd(budget: Uncertain): number {
  switch (budget.kind) {
    case 'exact':
      return budget.value
    case 'normal':
      return budget.value - 2 * budget.u
    case 'uniform':
      return budget.low
    case 'below':
      return 0
    case 'skewed':
      return budget.p5
  }
}

/**
 * By how much tolerances let a result rise above its value at their means: for each number the way from its mean to the
 * end of its tolerance, times its sensitivity, in squares, as independent numbers add up (JCGM 100, 5.1.2). One uncertain
 * number alone gives its very end.
 */
export function riseAllowed(budget: readonly Uncertain[], sensitivities: readonly number[]): number {
  return Math.hypot(
    ...budget.map((each, k) => {
      const end = sensitivities[k] < 0 ? lowerEnd(each) : upperEnd(each)
      return sensitivities[k] * (end - meanOf(each))
    }),
  )
}
