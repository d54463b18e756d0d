/** A question that takes the server a while: a press asks it, progress is shown, and it can be called off. */
import type { ReactNode } from 'react'
import type { Asked, OfOutpost, Work } from '../../api/work.ts'
import { useDraft } from '../draft/keeper.ts'
import { useRoute } from '../route.ts'
import type { WorkDesk } from '../server/work.ts'
import { type PlayChoices, type Played, usePlay } from './play-fields.tsx'
import { Progress } from './progress.tsx'
import { TakeAway } from './take-away.tsx'

export interface WorkPartProps<W extends Work> {
  readonly title: string
  readonly lead: ReactNode
  readonly desk: WorkDesk<W>
  readonly press: string
  /** What to ask, of the outpost as it stands now. */
  readonly asks: (outpost: OfOutpost, play: Omit<Played, 'seed'>) => Extract<Asked, { work: W }>
  /** How it may be played. */
  readonly plays: PlayChoices
  /** Choices to be made before asking. */
  readonly before?: ReactNode
  /** One of them will not do. */
  readonly isWrong?: boolean
  /** Files that are taken away are named after it. */
  readonly name: string
  readonly children: ReactNode
}

export function WorkPart<W extends Work>(props: WorkPartProps<W>) {
  const { title, lead, desk, press, asks, plays, before, isWrong = false, name, children } = props
  const draft = useDraft()
  const { variant } = useRoute()
  const { play, isWrong: isPlayWrong, fields } = usePlay(plays)
  if (draft === null) return null
  const { state, start, cancel } = desk
  const { seed, ...played } = play
  const outpost: OfOutpost = { file: draft.file, text: draft.text, variant, seed }
  // Work that plays all variants asks with none.
  const asked = state.is === 'done' ? asksOf(state.asked) : null
  const isChanged = asked !== null && asked.text !== draft.text
  const isOther = asked !== null && asked.variant !== asksOf(asks(outpost, played)).variant
  return (
    <section className="part">
      <h2>{title}</h2>
      <p>{lead}</p>
      {before}
      <details className="played-otherwise">
        <summary>How it is played</summary>
        {fields}
      </details>
      <div className="buttons">
        <button type="button" disabled={isWrong || isPlayWrong} onClick={() => start(asks(outpost, played))}>
          {state.is === 'done' ? `${press} again` : press}
        </button>
        {state.is === 'working' && (
          <>
            <Progress told={state.told} />
            <button type="button" className="quiet" onClick={cancel}>
              Call it off
            </button>
          </>
        )}
        {isChanged && <span className="hint">The file has changed since this was reckoned.</span>}
        {isOther && <span className="hint">This is of {asked.variant ?? 'the file as written'}.</span>}
      </div>
      {state.is === 'refused' && <p className="problem error refused-work">{state.why}</p>}
      {state.is === 'done' && (
        <div className="answer-part">
          {children}
          <TakeAway name={`${stemOf(draft.file)}-${name}`} asked={state.asked} answer={state.answer} />
        </div>
      )}
    </section>
  )
}

const asksOf = (asked: object): Partial<Pick<OfOutpost, 'text' | 'variant'>> => asked

/** `gauge` of `sub/gauge.outpost.yaml`. */
export const stemOf = (file: string): string => file.replace(/^.*\//, '').replace(/\.outpost\.ya?ml$/, '')
