/** One thread of an ensemble: the ensemble comes once, with the thread; then chunks of runs are asked for. */
import { workerData } from 'piscina'
import { type Ensemble, playChunk } from '../outlook/ensemble.ts'
import type { Tally } from '../outlook/tally.ts'

export function play({ from, to }: { from: number; to: number }): Tally {
  return playChunk(workerData as Ensemble, from, to)
}
