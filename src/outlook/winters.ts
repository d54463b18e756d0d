/**
 * The share of winters survived. Winters of one run share a drawn device and so are more alike than winters of two:
 * the interval is Wilson's (1927) on the effective number of winters, the count divided by Kish's design effect
 * ("Survey Sampling", 1965), estimated from the spread between runs.
 */
import { wilson } from '../numeric/wilson.ts'
import type { Share } from './outlook.ts'
import type { Counts } from './tally.ts'

/** What of a tally's counts says how winters went. */
export type WinterCounts = Pick<
  Counts,
  'runs' | 'winters' | 'survived' | 'survivedSquared' | 'survivedWinters' | 'wintersSquared'
>

export function wintersSurvived(counts: WinterCounts): Share & { survived: number; of: number } {
  const { winters, survived, runs } = counts
  if (winters === 0) return { share: 0, low: 0, high: 1, survived, of: winters }
  const share = survived / winters
  const effective = winters / designEffect(counts, share)
  return { share, ...wilson(share * effective, effective), survived, of: winters }

  function designEffect(c: WinterCounts, p: number): number {
    // With no spread to estimate from, count each run once: the cautious end.
    if (p === 0 || p === 1 || runs < 2) return winters / runs
    const between = c.survivedSquared - 2 * p * c.survivedWinters + p * p * c.wintersSquared
    const variance = (between / (winters * winters)) * (runs / (runs - 1))
    return Math.max(1, variance / ((p * (1 - p)) / winters))
  }
}
