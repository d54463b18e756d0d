/** The steps of a wake as a table, and those of a boot where the device restarts. */
import type { Path } from '../../outpost/file/diagnostic.ts'
import { Field } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { type Column, TypedTable } from '../form/typed-table.tsx'

const COLUMNS: readonly Column[] = [
  { key: 'name', head: 'step', width: 19 },
  { key: 'for', head: 'for', width: 18 },
  { key: 'draws', head: 'draws', width: 15 },
  { key: 'peak', head: 'peak', width: 17, placeholder: 'none' },
  { key: 'chance', head: 'chance', width: 8, placeholder: 'always' },
  { key: 'every', head: 'every', width: 7, placeholder: 'wake' },
  { key: 'reports', head: 'reports', width: 8, placeholder: '0' },
]
const MORE_KEYS = ['retries', 'rail', 'note']

export function StepsPart() {
  const form = useForm()
  const resume = form.valueAt(['resume'])
  const restarts = resume.kind === 'text' && resume.text === 'restart'
  const booted = form.entriesAt(['wake', 'boot']).length > 0
  return (
    <section className="part" aria-labelledby="steps">
      <h2 id="steps">The steps of a wake</h2>
      {(restarts || booted) && (
        <>
          <h3>First, at each start</h3>
          <Steps
            path={['wake', 'boot']}
            label="Boot steps"
            what="boot step"
            blank={{ name: 'boot', for: '300 ms', draws: '12 mA' }}
          />
          {!restarts && (
            <p className="hint">
              These are left out while the device continues after a rest: see “After a rest” below.
            </p>
          )}
          <h3>Then, in order</h3>
        </>
      )}
      <Steps
        path={['wake', 'steps']}
        label="Steps of a wake"
        what="step"
        blank={{ name: 'new step', for: '1 s', draws: '10 mA' }}
      />
    </section>
  )
}

interface StepsProps {
  readonly path: Path
  readonly label: string
  readonly what: string
  readonly blank: Readonly<Record<string, string>>
}

function Steps(props: StepsProps) {
  return (
    <TypedTable
      {...props}
      columns={COLUMNS}
      more={{ keys: MORE_KEYS, show: (path, name) => <StepMore path={path} name={name} /> }}
    />
  )
}

function StepMore({ path, name }: { readonly path: Path; readonly name: string }) {
  const retries = [...path, 'retries']
  return (
    <>
      <p className="hint">
        When {name} fails it may be tried again: each further try waits first, at the rest current.
      </p>
      <div className="fields">
        <Field path={[...retries, 'probability']} label="One try fails with" placeholder="never" />
        <Field path={[...retries, 'times']} label="Further tries" placeholder="none" />
        <Field path={[...retries, 'backoff']} label="Wait before each" placeholder="none" />
        <Field path={[...retries, 'lasts']} label="A failed try lasts" placeholder="as long as the step" />
        <Field path={[...path, 'rail']} label="Supply rail" placeholder="the only one" />
        <Field path={[...path, 'note']} label="Note" placeholder="" />
      </div>
    </>
  )
}
