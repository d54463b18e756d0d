/** A few runs of an ensemble, as one thread plays them. */
import { type ChunkPlayer, chunkPlayer, type Ensemble } from '../outlook/ensemble.ts'
import type { Tally } from '../outlook/tally.ts'

export interface Chunk {
  readonly ensemble: Ensemble
  readonly from: number
  readonly to: number
}

/** Plays chunks, all of one ensemble, which is prepared with the first. */
export function chunkPlay(): (chunk: Chunk) => Tally {
  let play: ChunkPlayer | null = null
  return ({ ensemble, from, to }) => {
    play ??= chunkPlayer(ensemble)
    return play(from, to)
  }
}
