/**
 * The share of winters survived. Winters of one run share a drawn device and so are more alike than winters of two:
 * the interval is Wilson's (1927) on the effective number of winters, the count divided by Kish's design effect
 * ("Survey Sampling", 1965), estimated from the spread between runs. A few losses say little of how alike winters are, so
 * one run more is thought of, for the design effect alone, that lost all of its winters: without losses each run then
 * counts once, with many the runs speak for themselves. And no design is surer to survive than one that lost nothing.
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
  const each = winters / runs
  const effective = winters / (share === 0 || share === 1 ? each : designEffect(counts))
  const { low, high } = wilson(share * effective, effective)
  return { share, low: Math.min(low, wilson(runs, runs).low), high, survived, of: winters }
}

/** Of the runs and the one that is thought of. */
function designEffect(counts: WinterCounts): number {
  const { survived, survivedSquared, survivedWinters } = counts
  const runs = counts.runs + 1
  const each = counts.winters / counts.runs
  const winters = counts.winters + each
  const wintersSquared = counts.wintersSquared + each * each
  const p = survived / winters
  const between = survivedSquared - 2 * p * survivedWinters + p * p * wintersSquared
  const variance = (between / (winters * winters)) * (runs / (runs - 1))
  return Math.max(1, variance / ((p * (1 - p)) / winters))
}
