/** One thread of an ensemble: the ensemble comes once, with the thread; then chunks of runs are asked for. */
import { workerData } from 'piscina'
import { chunkPlayer, type Ensemble } from '../outlook/ensemble.ts'
import type { Tally } from '../outlook/tally.ts'
import type { Chunk } from './ensemble-pool.ts'

const play = chunkPlayer(workerData as Ensemble)

export function work({ from, to }: Chunk): Tally {
  return play(from, to)
}
