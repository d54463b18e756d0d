/** What can be asked of an imported recording at once: by its address, and by a span that may change while one waits. */
import { useEffect, useState } from 'react'
import type { SpanAnswer } from '../../api/bench.ts'
import { ask } from '../server/ask.ts'
import type { Window } from './trace/window.ts'

export const queryOf = (file: string, rate_Hz: number | null): string =>
  new URLSearchParams({ file, ...(rate_Hz === null ? {} : { rate: String(rate_Hz) }) }).toString()

export type Summed =
  | { readonly is: 'asking'; readonly last: SpanAnswer | null }
  | { readonly is: 'refused'; readonly why: string }
  | { readonly is: 'there'; readonly span: SpanAnswer }

/** A span that is dragged asks again and again: so long one waits for the next. */
const PAUSE_MS = 40

export function useSpan(query: string, span: Window | null): Summed {
  const [summed, setSummed] = useState<Summed>({ is: 'asking', last: null })
  const from_s = span?.from_s ?? null
  const to_s = span?.to_s ?? null
  useEffect(() => {
    if (from_s === null || to_s === null) return
    const controller = new AbortController()
    setSummed((now) => ({ is: 'asking', last: lastOf(now) }))
    const timer = setTimeout(() => {
      ask<SpanAnswer>(`/api/recording/statistics?${query}&from=${from_s}&to=${to_s}`, {
        signal: controller.signal,
      }).then(
        (answer) => setSummed({ is: 'there', span: answer }),
        (error: unknown) => {
          if (!controller.signal.aborted) setSummed({ is: 'refused', why: (error as Error).message })
        },
      )
    }, PAUSE_MS)
    return () => {
      clearTimeout(timer)
      controller.abort()
    }
  }, [query, from_s, to_s])
  return summed
}

export const lastOf = (summed: Summed): SpanAnswer | null =>
  summed.is === 'there' ? summed.span : summed.is === 'asking' ? summed.last : null
