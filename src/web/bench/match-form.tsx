/** Which state is which step: a choice for each state, filled in as it was found, and where the instrument sat. */
import { useId } from 'react'
import type { AdoptPreview } from '../../api/bench.ts'
import { localised } from '../look/shown.ts'

export type Chosen = Readonly<Record<string, string>>

export interface MatchFormProps {
  readonly preview: AdoptPreview
  readonly chosen: Chosen
  readonly onChoose: (state: string, role: string) => void
}

export const mapsOf = (chosen: Chosen): string[] =>
  Object.entries(chosen).map(([state, role]) => `${state} = ${role}`)

export function MatchForm({ preview, chosen, onChoose }: MatchFormProps) {
  const id = useId()
  return (
    <div className="match">
      {preview.states.map(({ name, words, taken, candidates, doubt }) => {
        const value = chosen[name] ?? taken ?? ''
        const roles = [...candidates, ...preview.roles.filter((role) => !candidates.includes(role))]
        const isListed = value === '' || roles.includes(value)
        return (
          <div key={name} className={`field ${doubt === null ? '' : 'has-warning'}`}>
            <label htmlFor={`${id}-${name}`}>
              {name}, {localised(words)}, is
            </label>
            <select
              id={`${id}-${name}`}
              value={value}
              aria-describedby={doubt === null ? undefined : `${id}-${name}-doubt`}
              onChange={(event) => onChoose(name, event.target.value)}
            >
              {value === '' && <option value="">which of these?</option>}
              {!isListed && <option value={value}>{value}</option>}
              {roles.map((role) => (
                <option key={role} value={role}>
                  {role === 'none' ? 'no step at all' : role}
                </option>
              ))}
            </select>
            {doubt !== null && (
              <p className="problem warning" id={`${id}-${name}-doubt`}>
                {doubt[0].toUpperCase()}
                {doubt.slice(1)}. Say which.
              </p>
            )}
          </div>
        )
      })}
    </div>
  )
}

export interface WhereFieldProps {
  readonly where: 'rail' | 'cell'
  readonly onWhere: (where: 'rail' | 'cell') => void
}

export function WhereField({ where, onWhere }: WhereFieldProps) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Measured at</label>
      <select id={id} value={where} onChange={(event) => onWhere(event.target.value as 'rail' | 'cell')}>
        <option value="rail">the device’s rail, behind any regulator</option>
        <option value="cell">the cell, before the regulator</option>
      </select>
    </div>
  )
}
