/** What the sentence of the first page comes to: its file, what is wrong with a blank, and the outlook of it at once. */
import { useEffect, useState } from 'react'
import type { AnswerProblem, Answers as Blanks } from '../../outpost/file/new.ts'
import type { Forecast } from '../../report/forecast.ts'
import { SEED } from '../verdict/answers.ts'
import type { Answer, Question, Sentence } from '../what-if/messages.ts'

export interface SentenceAnswer {
  /** The file; null while a blank will not do. */
  readonly text: string | null
  readonly problems: readonly AnswerProblem[]
  readonly forecast: Forecast | null
  /** The forecast is of this very sentence. */
  readonly isCurrent: boolean
  /** All its runs are played. */
  readonly isWhole: boolean
  readonly broken: string | null
}

const NONE: SentenceAnswer = {
  text: null,
  problems: [],
  forecast: null,
  isCurrent: false,
  isWhole: false,
  broken: null,
}

export function useSentence(blanks: Blanks): SentenceAnswer {
  const [answer, setAnswer] = useState(NONE)
  const [desk, setDesk] = useState<((blanks: Blanks) => void) | null>(null)
  useEffect(() => {
    const worker = new Worker(new URL('../what-if/what-if.worker.ts', import.meta.url), { type: 'module' })
    let id = 0
    const forecastOf = (text: string) =>
      worker.postMessage({
        id,
        file: 'new.outpost.yaml',
        text,
        files: {},
        variant: null,
        seed: SEED,
        calendarYear: new Date().getFullYear(),
      } satisfies Question)
    worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      if (data.id !== id) return
      if (data.kind === 'written') {
        const { text, problems } = data
        setAnswer((now) => ({ ...now, text, problems, isCurrent: false, isWhole: false }))
        if (text !== null) forecastOf(text)
      } else if (data.kind === 'forecast')
        setAnswer((now) => ({ ...now, forecast: data.forecast, isCurrent: true, isWhole: data.isWhole }))
      else if (data.kind === 'broken') setAnswer((now) => ({ ...now, broken: data.why }))
    }
    worker.onerror = (event) =>
      setAnswer((now) => ({ ...now, broken: event.message || 'it could not be loaded' }))
    setDesk(() => (next: Blanks) => {
      id++
      worker.postMessage({ id, blanks: next } satisfies Sentence)
    })
    return () => worker.terminate()
  }, [])
  const key = JSON.stringify(blanks)
  useEffect(() => desk?.(JSON.parse(key) as Blanks), [desk, key])
  return answer
}
