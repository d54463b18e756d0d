/** One thread of a comparison: the ensembles of all variants come once, with the thread; then chunks of their runs. */
import { workerData } from 'piscina'
import type { Ensemble } from '../outlook/ensemble.ts'
import { type PlayedRuns, playRuns, type Runs } from './play-runs.ts'

export function work(runs: Runs): PlayedRuns {
  return playRuns(workerData as readonly Ensemble[], runs)
}
