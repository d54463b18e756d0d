/** Longer intervals while the battery is low, row by row. */
import { formatQuantity } from '../../quantity/format.ts'
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
import { Problem, useProblems } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { type Column, TypedTable } from '../form/typed-table.tsx'
import { useDesign } from '../verdict/design.ts'
import { CADENCE } from './cadence-kind.ts'
import { durationOf_s } from './retimed.ts'

const THRIFT = [...CADENCE, 'thrift'] as const
const COLUMNS: readonly Column[] = [
  { key: 'below', head: 'while the battery is below', width: 1 },
  { key: 'interval', head: 'the interval is', width: 1 },
  { key: 'hysteresis', head: 'and again so much higher', width: 1 },
]
/** A further row is so much lower than the last. */
const STEP_V = 0.1
const USUAL_s = 3600

export function ThriftPart({ hasInterval }: { readonly hasInterval: boolean }) {
  const form = useForm()
  const design = useDesign()
  const problems = useProblems(THRIFT)
  const rows = form.entriesAt(THRIFT).length
  if (!hasInterval && rows === 0) return null
  const textAt = (key: string) => {
    const value = form.valueAt([...THRIFT, rows - 1, key])
    return value.kind === 'text' ? value.text : ''
  }
  const last = parseUncertain(textAt('below'), 'voltage')
  const restart_V = design?.best.supply.brownout.restart_V ?? 3
  const below_V = last.ok ? best(last.value) - STEP_V : restart_V + STEP_V
  const interval_s = 2 * (durationOf_s(textAt('interval')) ?? USUAL_s / 2)
  const blank = {
    below: formatQuantity(Math.max(STEP_V, below_V), 'voltage', { digits: 3 }),
    interval: formatQuantity(interval_s, 'duration'),
  }
  return (
    <>
      <h3>Thrift: slower while the battery is low</h3>
      <p className="hint">
        Highest voltage first, measured under the rest load. Firmware that keeps to such a table is on the
        page Choices.
      </p>
      <TypedTable path={THRIFT} label="Thrift table" what="thrift row" columns={COLUMNS} blank={blank} />
      {problems.map((problem) => (
        <Problem key={problem.code} {...problem} />
      ))}
      {!hasInterval && (
        <button type="button" onClick={() => form.remove(THRIFT, 'the thrift table')}>
          Take the thrift table away
        </button>
      )}
    </>
  )
}
