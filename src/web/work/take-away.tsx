/** What was found, to take away: all of it as JSON, and where there is one the report that the command writes. */
import { useEffect, useRef } from 'react'
import type { Asked, Reported } from '../../api/work.ts'
import { saveAs } from '../figure/save.ts'
import { useWork } from '../server/work.ts'
import { Progress } from './progress.tsx'

export interface TakeAwayProps {
  /** Of the files, without ending. */
  readonly name: string
  readonly asked: Asked
  readonly answer: unknown
}

export function TakeAway({ name, asked, answer }: TakeAwayProps) {
  return (
    <div className="buttons take-away">
      {isReported(asked) && <ReportButton name={name} of={asked} />}
      <button
        type="button"
        className="quiet"
        onClick={() => saveAs(`${name}.json`, `${JSON.stringify(answer, null, 2)}\n`, 'application/json')}
      >
        Save everything (JSON)
      </button>
    </div>
  )
}

const isReported = (asked: Asked): asked is Reported =>
  ['forecast', 'variants', 'size', 'read'].includes(asked.work)

/** The server plays it once more for that. */
export function ReportButton({ name, of }: { readonly name: string; readonly of: Reported }) {
  const { state, start, cancel } = useWork<'report'>()
  const saved = useRef<unknown>(null)
  useEffect(() => {
    if (state.is !== 'done' || saved.current === state.answer) return
    saved.current = state.answer
    saveAs(`${name}.html`, state.answer.html, 'text/html')
  }, [state, name])
  return (
    <>
      <button type="button" className="quiet" onClick={() => start({ work: 'report', of })}>
        Save the report (HTML)
      </button>
      {state.is === 'working' && (
        <>
          <Progress told={state.told} />
          <button type="button" className="quiet" onClick={cancel}>
            Leave it
          </button>
        </>
      )}
      {state.is === 'refused' && <span className="problem error">{state.why}</span>}
    </>
  )
}
