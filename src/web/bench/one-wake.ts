/** The current of one wake, as the drawing of all of them has it: in columns. */
import { useEffect, useState } from 'react'
import type { Density } from '../../api/bench.ts'
import { answerOf } from '../server/ask.ts'

export interface WakePoint {
  /** From its first rise. */
  readonly at_s: number
  readonly current_A: number
}

/** Null while nothing is chosen, or it is not here yet. */
export function useOneWake(
  query: string,
  start_s: number | null,
  { duration_s, columns }: Density,
): readonly WakePoint[] | null {
  const [wake, setWake] = useState<readonly WakePoint[] | null>(null)
  useEffect(() => {
    setWake(null)
    if (start_s === null) return
    const controller = new AbortController()
    const address = `/api/recording/view?${query}&from=${start_s}&to=${start_s + duration_s}&buckets=${columns}`
    answerOf(address, { signal: controller.signal })
      .then((answer) => answer.arrayBuffer())
      .then((bytes) =>
        setWake(pointsOf(new Float32Array(bytes).subarray(2 * columns, 3 * columns), duration_s)),
      )
      .catch(() => {}) // the list beside says the same in words
    return () => controller.abort()
  }, [query, start_s, duration_s, columns])
  return wake
}

function pointsOf(mean_A: Float32Array, duration_s: number): WakePoint[] {
  const step_s = duration_s / mean_A.length
  return [...mean_A].flatMap((current_A, k) =>
    Number.isNaN(current_A) ? [] : [{ at_s: (k + 0.5) * step_s, current_A }],
  )
}
