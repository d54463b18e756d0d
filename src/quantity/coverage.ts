/** Expanded uncertainty: an interval that holds a quantity with a stated probability (JCGM 100, clause 6 and G). */
import { coverageFactor } from '../numeric/student.ts'

export interface Coverage {
  readonly low: number
  readonly high: number
  /** Coverage factor k_p. */
  readonly factor: number
}

/**
 * Symmetric interval value ± k u that holds the quantity with `probability`, 0 < p < 1. `dof` are the effective degrees
 * of freedom, at least 1, cut to a whole number as G.4.1 has it, which errs to the wide side. RangeError otherwise.
 */
export function coverageInterval(
  { value, u, dof }: { readonly value: number; readonly u: number; readonly dof: number },
  probability: number,
): Coverage {
  if (!(dof >= 1)) throw new RangeError(`an interval needs 1 degree of freedom or more, not ${dof}`)
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`a coverage probability lies between 0 and 1, not ${probability}`)
  const factor = coverageFactor(probability, Math.floor(dof))
  return { low: value - factor * u, high: value + factor * u, factor }
}
