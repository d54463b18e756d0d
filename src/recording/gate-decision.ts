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
  /** That the true value is at or below the limit. */
  readonly probability: number
}

/** ISO 14253-1:2017, 5.3 (from memory): unless agreed otherwise. */
const CONFORMANCE = 0.95

/** p_c = Φ((T_U − y) / u) (JCGM 106, 7.3.2), with Student's t where u itself is known from few values. */
export function decideBelow({ value, u, dof }: Estimate, limit: number): Decision {
  if (u === 0) return decided(value <= limit ? 1 : 0)
  return decided(studentCdf((limit - value) / u, dof ?? Infinity))
}

/** A quantity that may be known only to be below what an instrument shows. */
export function decideUncertain(measured: Uncertain, limit: number): Decision {
  if (measured.kind === 'below') return decided(Math.min(Math.max(limit / measured.limit, 0), 1))
  return decideBelow(asEstimate(measured), limit)
}

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
