/** Long work on the server: asked with one request, told by events on its answer, cancelled by closing it. */
import { useCallback, useEffect, useRef, useState } from 'react'
import type { Answers, Asked, Told, Work } from '../../api/work.ts'
import { answerOf, Refusal } from './ask.ts'
import { eventsOf } from './event-stream.ts'

export interface Listening<W extends Work> {
  readonly signal?: AbortSignal
  readonly onTold?: (told: Told<W>) => void
}

/** Throws a Refusal in the server's words. */
export async function work<W extends Work>(
  asked: Extract<Asked, { work: W }>,
  { signal, onTold }: Listening<W> = {},
): Promise<Answers[W]> {
  const response = await answerOf('/api/work', {
    method: 'POST',
    headers: { 'content-type': 'application/json', accept: 'text/event-stream' },
    body: JSON.stringify(asked),
    ...(signal === undefined ? {} : { signal }),
  })
  if (response.body === null) throw new Refusal('The workbench sent no answer.')
  for await (const data of eventsOf(response.body)) {
    const told = JSON.parse(data) as Told<W>
    onTold?.(told)
    if (told.event === 'done') return told.answer
    if (told.event === 'refused') throw new Refusal(told.why)
  }
  throw new Refusal('The workbench broke off before the answer came. Try again.')
}

export type WorkState<W extends Work> =
  | { readonly is: 'idle' }
  | { readonly is: 'working'; readonly told: Told<W> | null }
  | { readonly is: 'done'; readonly answer: Answers[W]; readonly asked: Extract<Asked, { work: W }> }
  | { readonly is: 'refused'; readonly why: string }

export interface WorkDesk<W extends Work> {
  readonly state: WorkState<W>
  /** What was under way before is cancelled. */
  readonly start: (asked: Extract<Asked, { work: W }>) => void
  readonly cancel: () => void
}

/** Work that a component waits for; it ends with the component. */
export function useWork<W extends Work>(): WorkDesk<W> {
  const [state, setState] = useState<WorkState<W>>({ is: 'idle' })
  const running = useRef<AbortController | null>(null)
  const cancel = useCallback(() => {
    running.current?.abort()
    running.current = null
    setState((now) => (now.is === 'working' ? { is: 'idle' } : now))
  }, [])
  const start = useCallback((asked: Extract<Asked, { work: W }>) => {
    running.current?.abort()
    const controller = new AbortController()
    running.current = controller
    const isLatest = () => running.current === controller
    setState({ is: 'working', told: null })
    work<W>(asked, {
      signal: controller.signal,
      onTold: (told) => {
        if (isLatest() && (told.event === 'progress' || told.event === 'picture'))
          setState({ is: 'working', told })
      },
    }).then(
      (answer) => isLatest() && setState({ is: 'done', answer, asked }),
      (error: unknown) => isLatest() && setState({ is: 'refused', why: (error as Error).message }),
    )
  }, [])
  useEffect(() => () => running.current?.abort(), [])
  return { state, start, cancel }
}
