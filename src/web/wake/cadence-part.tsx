/** When the next wake is: the kind of rule in words, and its numbers. */
import { useId } from 'react'
import { Field, Problem, useProblems } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import {
  CADENCE,
  CADENCE_WORDS,
  type CadenceKind,
  cadenceEdits,
  kindOf,
  USUAL_EVENTS,
} from './cadence-kind.ts'
import { ThriftPart } from './thrift-part.tsx'
import { TimesOfDay } from './times-of-day.tsx'

export function CadencePart() {
  const form = useForm()
  const id = useId()
  const keys = form.entriesAt(CADENCE)
  const kind = kindOf(keys)
  const problems = useProblems(CADENCE)
  const hasEvents = keys.includes('events')
  const choose = (to: CadenceKind) =>
    form.inOneStep(
      `waking by ${CADENCE_WORDS[to]}`,
      cadenceEdits(to, keys, (key) => form.valueAt([...CADENCE, key])),
    )
  return (
    <section className="part" aria-labelledby="cadence">
      <h2 id="cadence">When it wakes</h2>
      <div className="fields wide-fields">
        <div className="field">
          <label htmlFor={id}>The next wake comes by</label>
          <select id={id} value={kind ?? ''} onChange={(event) => choose(event.target.value as CadenceKind)}>
            {kind === null && <option value="">nothing yet</option>}
            {Object.entries(CADENCE_WORDS).map(([value, words]) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </select>
        </div>
        <Numbers kind={kind} />
        {hasEvents && (
          <Field
            path={[...CADENCE, 'events', 'per day']}
            label="Random events a day"
            hint="a mean; they come as they like"
          />
        )}
      </div>
      {kind === 'times of day' && <TimesOfDay />}
      {problems.map((problem) => (
        <Problem key={problem.code} {...problem} />
      ))}
      {kind !== null && kind !== 'events' && (
        <label className="inline apart">
          <input
            type="checkbox"
            checked={hasEvents}
            onChange={() =>
              hasEvents
                ? form.remove([...CADENCE, 'events'], 'random events')
                : form.addEntry(CADENCE, 'events', USUAL_EVENTS)
            }
          />{' '}
          random events wake it as well
        </label>
      )}
      <ThriftPart hasInterval={kind === 'rest' || kind === 'rate' || kind === 'clock minutes'} />
    </section>
  )
}

function Numbers({ kind }: { readonly kind: CadenceKind | null }) {
  switch (kind) {
    case 'rest':
      return <Field path={[...CADENCE, 'rest']} label="Rests for" />
    case 'rate':
      return (
        <Field
          path={[...CADENCE, 'rate']}
          label="Wakes every"
          hint="a wake that lasts longer costs the next"
        />
      )
    case 'clock minutes':
      return (
        <Field
          path={[...CADENCE, 'clock minutes']}
          label="Changes of the minute"
          hint="the first rest is half a minute short on average"
        />
      )
    case 'times of day':
      return <Field path={[...CADENCE, 'times of day', 'zone']} label="In the time zone" offers={ZONES} />
    case 'events':
    case null:
      return null
  }
}

const ZONES = Intl.supportedValuesOf('timeZone')
