/** Measured steps into the outpost that is open: which state is which step, what would change, and the change itself. */
import { useEffect, useState } from 'react'
import type { AdoptPreview } from '../../api/bench.ts'
import type { Draft } from '../draft/draft.ts'
import { edit } from '../draft/keeper.ts'
import { localised } from '../look/shown.ts'
import { useRoute } from '../route.ts'
import { useWork } from '../server/work.ts'
import type { BenchAddress } from './address.ts'
import { DifferenceLines } from './difference-lines.tsx'
import { MatchForm, mapsOf, WhereField } from './match-form.tsx'
import type { MatchSaid } from './use-match.ts'

export interface AdoptPartProps {
  readonly bench: BenchAddress
  readonly draft: Draft
  readonly match: MatchSaid
}

export function AdoptPart({ bench, draft, match }: AdoptPartProps) {
  const { state, start } = useWork<'adopt'>()
  const { variant } = useRoute()
  const [isWanted, setWanted] = useState(false)
  const { chosen, choose, where, setWhere } = match
  const [last, setLast] = useState<AdoptPreview | null>(null)
  const [written, setWritten] = useState<string | null>(null)
  const { file, text } = draft
  const { recording, rate_Hz, instrument } = bench
  // As a text, which stays the same as long as it says the same.
  const ranges = instrument === null ? '' : bench.ranges.join(';')
  useEffect(() => {
    if (!isWanted || recording === null) return
    const outpost = { file, text, variant }
    const measured = { rate_Hz, instrument, ranges: ranges === '' ? [] : ranges.split(';') }
    start({ work: 'adopt', file: recording, ...measured, outpost, maps: mapsOf(chosen), where })
  }, [isWanted, recording, rate_Hz, instrument, ranges, file, text, variant, chosen, where, start])
  useEffect(() => {
    if (state.is === 'done') setLast(state.answer)
  }, [state])
  const preview = state.is === 'done' ? state.answer : last
  const isCurrent = state.is === 'done' && state.asked.outpost.text === text
  return (
    <section className="part" aria-labelledby="adopt-title">
      <h2 id="adopt-title">Into {file}</h2>
      {!isWanted ? (
        <>
          <p>The measured currents and times can take the place of those that the outpost has now.</p>
          <button type="button" onClick={() => setWanted(true)}>
            Show what would change
          </button>
        </>
      ) : (
        <>
          <div className="fields">
            <WhereField where={where} onWhere={setWhere} />
          </div>
          {state.is === 'refused' && <pre className="problem error">{state.why}</pre>}
          {preview === null && state.is === 'working' && (
            <p className="waiting">Matching states and steps …</p>
          )}
          {preview !== null && (
            <>
              <MatchForm preview={preview} chosen={chosen} onChoose={choose} />
              <Preview
                preview={preview}
                isCurrent={isCurrent}
                isWritten={written === text}
                onWrite={(after) => {
                  edit(after, 'what was measured')
                  setWritten(after)
                }}
              />
            </>
          )}
        </>
      )}
    </section>
  )
}

interface PreviewProps {
  readonly preview: AdoptPreview
  readonly isCurrent: boolean
  readonly isWritten: boolean
  readonly onWrite: (after: string) => void
}

function Preview({ preview: { adoption, states }, isCurrent, isWritten, onWrite }: PreviewProps) {
  const unclear = states.filter(({ doubt }) => doubt !== null).map(({ name }) => name)
  if (adoption === null)
    return (
      <p role="status">
        What would change stands here once it is clear which step {unclear.length === 1 ? 'state' : 'states'}{' '}
        {unclear.join(', ')} {unclear.length === 1 ? 'is' : 'are'}.
      </p>
    )
  const { difference, notes, after } = adoption
  return (
    <div className={isCurrent ? '' : 'is-stale'}>
      {difference === '' ? (
        <p role="status">
          {isWritten ? 'Written. Undo, at the top, takes it back.' : 'The outpost says all of this already.'}
        </p>
      ) : (
        <>
          <DifferenceLines difference={difference} />
          <p>
            <button type="button" disabled={!isCurrent} onClick={() => onWrite(after)}>
              Write it into the outpost
            </button>
          </p>
        </>
      )}
      {notes.map((note) => (
        <p key={note} className="hint">
          {localised(note)}
        </p>
      ))}
    </div>
  )
}
