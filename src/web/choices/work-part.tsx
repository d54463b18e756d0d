/** A question that takes the server a while: a press asks it, progress is shown, and it can be called off. */
import type { ReactNode } from 'react'
import type { Asked, OfOutpost, Work } from '../../api/work.ts'
import { useDraft } from '../draft/keeper.ts'
import { shareShown } from '../look/shown.ts'
import { useRoute } from '../route.ts'
import type { WorkDesk } from '../server/work.ts'
import { SEED } from '../verdict/answers.ts'

export interface WorkPartProps<W extends Work> {
  readonly title: string
  readonly lead: ReactNode
  readonly desk: WorkDesk<W>
  readonly press: string
  /** What to ask, of the outpost as it stands now. */
  readonly asks: (outpost: OfOutpost) => Extract<Asked, { work: W }>
  /** Choices to be made before asking. */
  readonly before?: ReactNode
  readonly children: ReactNode
}

export function WorkPart<W extends Work>({
  title,
  lead,
  desk,
  press,
  asks,
  before,
  children,
}: WorkPartProps<W>) {
  const draft = useDraft()
  const { variant } = useRoute()
  if (draft === null) return null
  const { state, start, cancel } = desk
  const outpost: OfOutpost = { file: draft.file, text: draft.text, variant, seed: SEED }
  const isOld = state.is === 'done' && textOf(state.asked) !== draft.text
  return (
    <section className="part">
      <h2>{title}</h2>
      <p>{lead}</p>
      {before}
      <div className="buttons">
        <button type="button" onClick={() => start(asks(outpost))}>
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
        {isOld && <span className="hint">The file has changed since this was reckoned.</span>}
      </div>
      {state.is === 'refused' && <p className="problem error refused-work">{state.why}</p>}
      {state.is === 'done' && <div className="answer-part">{children}</div>}
    </section>
  )
}

const textOf = (asked: object): string | null =>
  'text' in asked && typeof asked.text === 'string' ? asked.text : null

function Progress({ told }: { readonly told: { readonly event: string } | null }) {
  const share =
    told !== null && 'done' in told && 'of' in told && Number(told.of) > 0
      ? Number(told.done) / Number(told.of)
      : null
  return (
    <span role="status">
      <progress value={share ?? undefined} aria-label="Progress" />{' '}
      {share === null ? 'waiting' : shareShown(share)}
    </span>
  )
}
