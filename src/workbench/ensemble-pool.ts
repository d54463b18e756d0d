/** Plays an ensemble on worker threads, or here when there is but one; the outlook is the same for any number of threads. */
import type { Ensemble } from '../outlook/ensemble.ts'
import { emptyTally, mergeTally, type Tally } from '../outlook/tally.ts'
import { type Chunk, chunkPlay } from './chunk-play.ts'
import { crewFor } from './crew.ts'
import type { Playing } from './playing.ts'

/** Runs handed out at a time. Part of the result: sums are taken chunk by chunk, in order. */
const CHUNK_RUNS = 10

export interface EnsemblePool {
  /** Plays an ensemble, the only one of this pool. */
  play(ensemble: Ensemble): Promise<Tally>
  close(): Promise<void>
}

/** Threads take as long to come up as a file takes to be read: so they are started before the ensemble is known. */
export function ensemblePool(playing: Playing): EnsemblePool {
  const crew = crewFor<null, Chunk, Tally>(
    { worker: 'chunk-worker', problem: null, here: chunkPlay },
    playing,
  )
  return {
    async play(ensemble) {
      const { runs, years, budgetParts } = ensemble
      const chunks: Chunk[] = []
      for (let from = 0; from < runs; from += CHUNK_RUNS)
        chunks.push({ ensemble, from, to: Math.min(from + CHUNK_RUNS, runs) })
      const total = emptyTally(years, budgetParts.length)
      await crew.each(chunks, (part) => {
        mergeTally(total, part)
        playing.onProgress?.(total.counts.runs, runs)
      })
      return total
    },
    close: crew.close,
  }
}
