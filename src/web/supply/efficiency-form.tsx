/** A converter's efficiency: one number, or a table over the output current. */
import { useId, useState } from 'react'
import { withEntry } from '../../outpost/file/edit-entry.ts'
import { withKey } from '../../outpost/file/edit-key.ts'
import { Field, Problem, useProblems } from '../form/field.tsx'
import { useForm } from '../form/form.ts'

const AT = ['supply', 'regulator', 'efficiency'] as const
/** Points that a data sheet's curve would give, between rest and a burst. */
const USUAL_POINTS = ['100 µA', '10 mA']
const USUAL = '85 %'

export function EfficiencyForm() {
  const form = useForm()
  const value = form.valueAt(AT)
  const problems = useProblems(AT)
  if (value.kind !== 'map')
    return (
      <div className="fields">
        <Field path={AT} label="Efficiency" hint="at any current" />
        <p>
          <button
            type="button"
            className="quiet"
            onClick={() =>
              form.inOneStep('efficiency by current', [
                (document) =>
                  withEntry(
                    document,
                    AT.slice(0, -1),
                    'efficiency',
                    Object.fromEntries(
                      USUAL_POINTS.map((current) => [
                        current,
                        value.kind === 'text' && value.text !== '' ? value.text : USUAL,
                      ]),
                    ),
                  ),
              ])
            }
          >
            Give it by current
          </button>
        </p>
      </div>
    )
  const next = nextCurrent(value.keys)
  return (
    <>
      <h3>Efficiency, by output current</h3>
      <table className="typed efficiency">
        <thead>
          <tr>
            <th scope="col">at</th>
            <th scope="col">it is</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {value.keys.map((key) => (
            <tr key={key}>
              <td>
                <CurrentKey current={key} />
              </td>
              <td>
                <Field path={[...AT, key]} label={`Efficiency at ${key}`} isLabelHidden />
              </td>
              <td>
                {value.keys.length > 2 && (
                  <button
                    type="button"
                    className="quiet"
                    aria-label={`Take ${key} away`}
                    title={`Take ${key} away`}
                    onClick={() => form.remove([...AT, key], `the efficiency at ${key}`)}
                  >
                    ×
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {problems.map((problem) => (
        <Problem key={problem.code} {...problem} />
      ))}
      <button type="button" className="quiet" onClick={() => form.addEntry(AT, next, USUAL)}>
        Add a current
      </button>
    </>
  )
}

/** The key of a point: it takes effect when the field is left, or by Enter, as half a current is none. */
function CurrentKey({ current }: { readonly current: string }) {
  const id = useId()
  const form = useForm()
  const [typed, setTyped] = useState<string | null>(null)
  const commit = () => {
    const next = typed?.trim() ?? ''
    setTyped(null)
    if (next !== '' && next !== current)
      form.inOneStep(`the current ${current}`, [(document) => withKey(document, [...AT, current], next)])
  }
  return (
    <div className="field">
      <label htmlFor={id} className="for-ears">
        Output current {current}
      </label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        spellCheck={false}
        value={typed ?? current}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => event.key === 'Enter' && commit()}
      />
    </div>
  )
}

const LADDER = ['1 µA', '10 µA', '100 µA', '1 mA', '10 mA', '100 mA', '300 mA', '1 A']

const nextCurrent = (keys: readonly string[]): string =>
  LADDER.find((current) => !keys.includes(current)) ?? `${keys.length} A`
