/** Local times of day at which it wakes, one field each. */
import { Field, Problem, useProblems } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { focusField } from '../form/row-keys.ts'
import { CADENCE } from './cadence-kind.ts'

const AT = [...CADENCE, 'times of day', 'at'] as const

export function TimesOfDay() {
  const form = useForm()
  const problems = useProblems([...CADENCE, 'times of day'])
  const times = form.entriesAt(AT)
  const add = () => {
    form.addItem(AT, times.length, '12:00')
    focusField([...AT, times.length])
  }
  return (
    <>
      <ul className="times">
        {times.map((index) => (
          <li key={index}>
            <Field path={[...AT, index]} label={`Wake ${Number(index) + 1}, at`} />
            {times.length > 1 && (
              <button
                type="button"
                className="quiet"
                aria-label={`Take wake ${Number(index) + 1} away`}
                title={`Take wake ${Number(index) + 1} away`}
                onClick={() => form.remove([...AT, index], 'a time of day')}
              >
                ×
              </button>
            )}
          </li>
        ))}
        <li>
          <button type="button" className="quiet" onClick={add}>
            Add a time
          </button>
        </li>
      </ul>
      {problems.map((problem) => (
        <Problem key={problem.code} {...problem} />
      ))}
    </>
  )
}
