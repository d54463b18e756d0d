/**
 * Designs side by side. Run k of each meets the same draws and the same weather, so a difference is taken run by run: what
 * luck does to both falls out, and a small difference shows in few runs.
 */
import { studentQuantile } from '../numeric/student.ts'
import type { RunOutcome } from '../outlook/run.ts'

/** A mean of paired differences with its 95 % interval (Student's t, one pair a run). */
export interface Difference {
  readonly mean: number
  readonly low: number
  readonly high: number
  /** The interval leaves zero out. */
  readonly isReal: boolean
}

export interface Differences {
  /** Share of winters survived, as a difference of shares. */
  readonly survival: Difference
  /** Time to the first death; a run that outlives the outlook counts with all that was played. */
  readonly life_days: Difference
  readonly reportsPerDay: Difference
}

/** What `other` does better than `reference`, run by run; both must have the same runs, at least two. */
export function differencesOf(reference: readonly RunOutcome[], other: readonly RunOutcome[]): Differences {
  if (reference.length !== other.length || reference.length < 2)
    throw new RangeError(
      `runs must pair up, at least two of them: got ${reference.length} and ${other.length}`,
    )
  const paired = (of: (outcome: RunOutcome) => number) =>
    meanWithInterval(reference.map((outcome, k) => of(other[k]) - of(outcome)))
  return {
    survival: paired(({ survived, winters }) => survived / winters),
    life_days: paired(({ life_days }) => life_days),
    reportsPerDay: paired(({ reportsPerDay }) => reportsPerDay),
  }
}

function meanWithInterval(values: readonly number[]): Difference {
  const n = values.length
  const mean = values.reduce((sum, value) => sum + value, 0) / n
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1)
  const half = studentQuantile(0.975, n - 1) * Math.sqrt(variance / n)
  return { mean, low: mean - half, high: mean + half, isReal: Math.abs(mean) > half }
}
