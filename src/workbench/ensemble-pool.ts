/** Plays an ensemble on worker threads, or here when it is small; the outlook is the same for any number of threads. */
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Piscina } from 'piscina'
import { type Ensemble, playChunk } from '../outlook/ensemble.ts'
import { emptyTally, mergeTally, type Tally } from '../outlook/tally.ts'

/** Runs handed out at a time. Part of the result: sums are taken chunk by chunk, in order. */
const CHUNK_RUNS = 20

export interface Playing {
  readonly threads: number
  /** Called with the number of runs done after each chunk. */
  readonly onProgress?: (done: number, of: number) => void
  readonly signal?: AbortSignal
}

export async function playEnsemble(ensemble: Ensemble, playing: Playing): Promise<Tally> {
  const chunks: { from: number; to: number }[] = []
  for (let from = 0; from < ensemble.runs; from += CHUNK_RUNS)
    chunks.push({ from, to: Math.min(from + CHUNK_RUNS, ensemble.runs) })
  const total = emptyTally(ensemble.years, ensemble.budgetParts.length)
  let done = 0
  const finished = (runs: number) => {
    done += runs
    playing.onProgress?.(done, ensemble.runs)
  }

  if (playing.threads <= 1 || chunks.length <= 1 || runsFromSource) {
    for (const { from, to } of chunks) {
      playing.signal?.throwIfAborted()
      mergeTally(total, playChunk(ensemble, from, to))
      finished(to - from)
      await new Promise(setImmediate) // lets an interrupt through
    }
    return total
  }

  const pool = new Piscina({
    filename: workerFile(),
    maxThreads: Math.min(playing.threads, chunks.length),
    workerData: ensemble,
  })
  try {
    // Chunks may finish in any order; they are merged in that of their first run. No more wait than threads can chew.
    const waiting = new Map<number, Tally>()
    let next = 0
    await Promise.all(
      chunks.map(async (chunk, i) => {
        const part: Tally = await pool.run(chunk, {
          name: 'play',
          ...(playing.signal ? { signal: playing.signal } : {}),
        })
        waiting.set(i, part)
        finished(chunk.to - chunk.from)
        for (let ready = waiting.get(next); ready !== undefined; ready = waiting.get(next)) {
          mergeTally(total, ready)
          waiting.delete(next++)
        }
      }),
    )
  } finally {
    await pool.destroy()
  }
  return total
}

/** Threads load JavaScript only: unbuilt, as under a test runner, everything is played on this one. */
const runsFromSource = import.meta.url.endsWith('.ts')

function workerFile(): string {
  const file = fileURLToPath(new URL('./chunk-worker.js', import.meta.url))
  if (!existsSync(file)) throw new Error(`the worker ${file} is missing: build again`)
  return file
}
