/** Which kind a part of the supply is, in words; choosing another rewrites the part as one step that can be undone. */
import { useId } from 'react'
import { pathText } from '../../outpost/file/diagnostic.ts'
import { Problem, useProblems } from '../form/field.tsx'
import { type DocumentEdit, useForm } from '../form/form.ts'
import { type KindRules, kindEdits } from './kind-edits.ts'

export interface KindChoiceProps {
  readonly part: 'regulator' | 'charger'
  readonly label: string
  readonly kinds: Readonly<Record<string, KindRules & { readonly words: string }>>
  /** For a part that is not there. */
  readonly none: string
  readonly toNone: DocumentEdit
}

export function useKind(part: KindChoiceProps['part']): string | null {
  const form = useForm()
  const kind = form.valueAt(['supply', part, 'kind'])
  return kind.kind === 'text' && kind.text !== '' ? kind.text : null
}

export function KindChoice({ part, label, kinds, none, toNone }: KindChoiceProps) {
  const id = useId()
  const form = useForm()
  const kind = useKind(part)
  const problems = [...useProblems(['supply', part]), ...useProblems(['supply', part, 'kind'])]
  const choose = (to: string) =>
    form.inOneStep(
      `${part}: ${to === '' ? none : kinds[to].words}`,
      to === '' ? [toNone] : kindEdits(part, to, kinds[to], form.entriesAt(['supply', part])),
    )
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={kind ?? ''}
        data-path={`supply.${part}.kind`}
        onChange={(event) => choose(event.target.value)}
      >
        <option value="">{none}</option>
        {kind !== null && !(kind in kinds) && <option value={kind}>{kind}</option>}
        {Object.entries(kinds).map(([name, { words }]) => (
          <option key={name} value={name}>
            {words}
          </option>
        ))}
      </select>
      {problems.map((problem) => (
        <Problem key={`${pathText(problem.path)} ${problem.code}`} {...problem} />
      ))}
    </div>
  )
}
