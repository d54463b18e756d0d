/** Stretches that were dragged over, each as a sentence in the margin, with a link that leads others to it. */
import type { SpanAnswer } from '../../api/bench.ts'
import { type ReadAlready, spanNote } from '../../report/span-note.ts'
import { PageLink } from '../frame/page-link.tsx'
import { unbroken } from '../look/shown.ts'
import { type BenchAddress, moreOf } from './address.ts'
import { lastOf, useSpan } from './sampled.ts'
import { placeShown } from './trace/read-out.ts'
import { around, type Limits, type Window } from './trace/window.ts'

export interface NotesProps {
  readonly bench: BenchAddress
  readonly query: string
  readonly limits: Limits
  readonly read: ReadAlready | null
  /** As they are at this moment; the address follows. */
  readonly notes: readonly Window[]
  /** One under way, which is no note yet. */
  readonly marking: Window | null
  readonly chosen: number | null
  readonly onChoose: (note: number) => void
  readonly onRemove: (note: number) => void
}

export function Notes(props: NotesProps) {
  const { bench, query, limits, read, notes, marking, chosen, onChoose, onRemove } = props
  return (
    <aside className="notes" aria-labelledby="notes-title">
      <h3 id="notes-title">Notes</h3>
      {notes.length === 0 && marking === null && (
        <p className="hint">
          Drag over the trace with Shift held, or press “Note a stretch”: here it says how much charge flowed
          in it.
        </p>
      )}
      <ol>
        {notes.map((note, k) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: notes are told apart by their number
          <li key={k} className={k === chosen ? 'is-chosen' : ''}>
            <NoteSentence span={note} query={query} read={read} voltage_V={bench.voltage_V} />
            <p className="note-ends">
              <PageLink
                to={{ more: moreOf({ ...bench, window: around(note, limits), notes: [note] }) }}
                className="note-link"
              >
                {fromTo(note)}
              </PageLink>{' '}
              <button
                type="button"
                className="quiet"
                aria-pressed={k === chosen}
                aria-label={`Move the edges of note ${k + 1}`}
                onClick={() => onChoose(k)}
              >
                Edges
              </button>
              <button
                type="button"
                className="quiet"
                aria-label={`Remove note ${k + 1}`}
                onClick={() => onRemove(k)}
              >
                Remove
              </button>
            </p>
          </li>
        ))}
        {marking !== null && (
          <li className="is-chosen">
            <NoteSentence span={marking} query={query} read={read} voltage_V={bench.voltage_V} />
          </li>
        )}
      </ol>
    </aside>
  )
}

const fromTo = (span: Window): string =>
  [span.from_s, span.to_s].map((time_s) => shortest(placeShown(time_s, span))).join(' to ')

/** Without zeros that say nothing. */
const shortest = (place: string): string =>
  place.replace(/([.,]\d*?)0+(?= s$)/, '$1').replace(/[.,](?= s$)/, '')

interface NoteSentenceProps extends Pick<NotesProps, 'query' | 'read'> {
  readonly span: Window
  /** Where none was recorded. */
  readonly voltage_V: number | null
}

function NoteSentence({ span, query, read, voltage_V }: NoteSentenceProps) {
  const summed = useSpan(query, span)
  if (summed.is === 'refused') return <p className="problem error">{summed.why}</p>
  const answer: SpanAnswer | null = lastOf(summed)
  return (
    <p className="note-sentence" aria-live="polite" aria-busy={summed.is === 'asking'}>
      {answer === null ? '…' : unbroken(spanNote(withEnergy(answer, voltage_V), read))}
    </p>
  )
}

const withEnergy = (span: SpanAnswer, voltage_V: number | null): SpanAnswer =>
  span.energy_J !== null || voltage_V === null
    ? span
    : { ...span, energy_J: span.charge_C * voltage_V, energyCovered_s: span.covered_s }
