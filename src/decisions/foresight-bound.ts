/** The bound on a whole set of runs of which a stated share of winters may be lost. */
import { mostWakes } from './foresight.ts'
import { storeOf } from './foresight-store.ts'
import type { ThriftRun } from './thrift-runs.ts'

/** Reports that no rule can exceed in one run: staying up throughout, where that can be, and stopping at will. */
export interface RunBound {
  readonly staying: number | null
  readonly stopping: number
}

export function runBound(run: ThriftRun): RunBound {
  const range = { least: Math.min(...run.wakesPerStep), most: Math.max(...run.wakesPerStep) }
  const wakes = (mayStop: boolean) =>
    mostWakes(storeOf(run.plan, run.light, run.air, range, mayStop), mayStop)
  const staying = wakes(false)
  return {
    staying: staying === null ? null : staying * run.reportsPerWake,
    stopping: (wakes(true) ?? 0) * run.reportsPerWake,
  }
}

/**
 * Sum of the bounds when at most `mayStop` runs lose a winter: those that gain most by it. Null where more runs than that
 * cannot be survived by anyone.
 */
export function boundOf(bounds: readonly RunBound[], mayStop: number): number | null {
  const gains = bounds
    .map(({ staying, stopping }) => (staying === null ? Infinity : Math.max(stopping - staying, 0)))
    .sort((x, y) => y - x)
  if (gains.filter((gain) => gain === Infinity).length > mayStop) return null
  const stops = gains.slice(0, mayStop)
  const certain = bounds.reduce((sum, { staying, stopping }) => sum + (staying ?? stopping), 0)
  return stops.reduce((sum, gain) => sum + (gain === Infinity ? 0 : gain), certain)
}
