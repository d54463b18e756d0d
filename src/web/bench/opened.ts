/** Opens the recording that the address names: at once where it was imported before, and imports it otherwise. */
import { useEffect, useState } from 'react'
import type { Imported } from '../../api/bench.ts'
import { ask } from '../server/ask.ts'
import { useWork } from '../server/work.ts'
import { queryOf } from './sampled.ts'

export type OpenedRecording =
  | { readonly is: 'none' }
  | { readonly is: 'looking' }
  | { readonly is: 'importing'; readonly done: number; readonly of: number; readonly cancel: () => void }
  | { readonly is: 'refused'; readonly why: string; readonly again: () => void }
  | { readonly is: 'open'; readonly imported: Imported; readonly query: string; readonly again: () => void }

export function useOpenedRecording(file: string | null, rate_Hz: number | null): OpenedRecording {
  const [kept, setKept] = useState<Imported | null>(null)
  const [refused, setRefused] = useState<string | null>(null)
  const [turn, setTurn] = useState(0)
  const { state, start, cancel } = useWork<'import'>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: another turn looks again
  useEffect(() => {
    setKept(null)
    setRefused(null)
    cancel()
    if (file === null) return
    let isWanted = true
    ask<Imported | null>(`/api/recording?${queryOf(file, rate_Hz)}`).then(
      (found) => {
        if (!isWanted) return
        if (found === null) start({ work: 'import', file, rate_Hz })
        else setKept(found)
      },
      (error: unknown) => isWanted && setRefused((error as Error).message),
    )
    return () => {
      isWanted = false
    }
  }, [file, rate_Hz, turn, start, cancel])

  const again = () => setTurn(turn + 1)
  if (file === null) return { is: 'none' }
  const query = queryOf(file, rate_Hz)
  if (kept !== null && kept.file === file) return { is: 'open', imported: kept, query, again }
  if (refused !== null) return { is: 'refused', why: refused, again }
  if (state.is === 'done' && state.asked.file === file && state.asked.rate_Hz === rate_Hz)
    return { is: 'open', imported: state.answer, query, again }
  if (state.is === 'refused') return { is: 'refused', why: state.why, again }
  if (state.is !== 'working') return { is: 'looking' }
  const { told } = state
  const { done, of } = told?.event === 'progress' ? told : { done: 0, of: 0 }
  return { is: 'importing', done, of, cancel }
}
