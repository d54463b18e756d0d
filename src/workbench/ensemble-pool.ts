/** Plays an ensemble on worker threads, or here when it is small; the outlook is the same for any number of threads. */
import { chunkPlayer, type Ensemble } from '../outlook/ensemble.ts'
import { emptyTally, mergeTally, type Tally } from '../outlook/tally.ts'
import { crewFor } from './crew.ts'
import type { Playing } from './playing.ts'

/** Runs handed out at a time. Part of the result: sums are taken chunk by chunk, in order. */
const CHUNK_RUNS = 10

export interface Chunk {
  readonly from: number
  readonly to: number
}

export async function playEnsemble(ensemble: Ensemble, playing: Playing): Promise<Tally> {
  const chunks: Chunk[] = []
  for (let from = 0; from < ensemble.runs; from += CHUNK_RUNS)
    chunks.push({ from, to: Math.min(from + CHUNK_RUNS, ensemble.runs) })
  const total = emptyTally(ensemble.years, ensemble.budgetParts.length)
  const crew = crewFor<Ensemble, Chunk, Tally>(
    {
      worker: 'chunk-worker',
      problem: ensemble,
      here: () => {
        const play = chunkPlayer(ensemble)
        return ({ from, to }) => play(from, to)
      },
    },
    { ...playing, threads: Math.min(playing.threads, chunks.length) },
  )
  try {
    await crew.each(chunks, (part) => {
      mergeTally(total, part)
      playing.onProgress?.(total.counts.runs, ensemble.runs)
    })
  } finally {
    await crew.close()
  }
  return total
}
