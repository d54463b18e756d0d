/** What the firmware should do when light fails: intervals by battery voltage, beside the best fixed one and the ideal. */
import { useId, useState } from 'react'
import type { Answers } from '../../api/work.ts'
import type { Rule } from '../../decisions/thrift.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { thriftInWords } from '../../report/thrift.ts'
import { useForm } from '../form/form.ts'
import { localised, numberShown, shareShown } from '../look/shown.ts'
import { useWork } from '../server/work.ts'
import { quantityFrom } from './quantity-from.ts'
import { WorkPart } from './work-part.tsx'

type ThriftReport = Answers['thrift']

export function ThriftPart() {
  const desk = useWork<'thrift'>()
  const id = useId()
  const [intervals, setIntervals] = useState('')
  const [mostRows, setMostRows] = useState(3)
  const times = intervals
    .split(',')
    .filter((text) => text.trim() !== '')
    .map((text) => quantityFrom(text, 'duration'))
  const isWrong = times.some((time_s) => time_s === null || time_s <= 0)
  return (
    <WorkPart
      title="When light fails"
      lead="A table of intervals by battery voltage, for firmware that slows down when the cell is low: most reports at the wanted survival."
      desk={desk}
      press="Find the table"
      asks={(outpost) => ({
        work: 'thrift',
        ...outpost,
        intervals_s: times.length === 0 || isWrong ? null : (times as number[]),
        mostRows,
      })}
      before={
        <div className="fields">
          <div className={`field ${isWrong ? 'has-error' : ''}`}>
            <label htmlFor={`${id}-intervals`}>Allowed intervals</label>
            <input
              id={`${id}-intervals`}
              type="text"
              value={intervals}
              placeholder="that of the file, and usual longer ones"
              aria-invalid={isWrong}
              onChange={(event) => setIntervals(event.target.value)}
            />
            {isWrong && (
              <p className="problem error">Times with units are wanted, such as 15 min, 1 h, 6 h.</p>
            )}
          </div>
          <div className="field">
            <label htmlFor={`${id}-rows`}>Rows at most</label>
            <select
              id={`${id}-rows`}
              value={mostRows}
              onChange={(event) => setMostRows(Number(event.target.value))}
            >
              {[1, 2, 3, 4, 5, 6, 7, 8].map((n) => (
                <option key={n}>{n}</option>
              ))}
            </select>
          </div>
        </div>
      }
    >
      {desk.state.is === 'done' && <Found thrift={desk.state.answer} />}
    </WorkPart>
  )
}

const volts = (value: number): string => formatQuantity(value, 'voltage', { digits: 4 })
const time = (value: number): string => formatQuantity(value, 'duration', { digits: 3 })

function Found({ thrift }: { readonly thrift: ThriftReport }) {
  const { table, bestFixed, bound, confirmed, hysteresis_V } = thrift
  const form = useForm()
  const [isWritten, setWritten] = useState(false)
  const write = (rule: Rule) => {
    const [first, ...lower] = rule.rows
    const key = thrift.schedule
    form.setValue(
      ['cadence', key],
      key === 'clock minutes' ? String(first.interval_s / 60) : time(first.interval_s),
      'the interval',
    )
    form.remove(['cadence', 'thrift'], 'the thrift table')
    if (lower.length > 0)
      form.addEntry(
        ['cadence'],
        'thrift',
        lower.map(({ below_V, interval_s }) => ({
          below: volts(below_V ?? 0),
          interval: time(interval_s),
          hysteresis: volts(hysteresis_V),
        })),
      )
    setWritten(true)
  }
  return (
    <>
      <p className="found">{localised(thriftInWords(thrift))}</p>
      {table !== null && (
        <>
          <table>
            <thead>
              <tr>
                <th scope="col">battery</th>
                <th scope="col">wakes every</th>
              </tr>
            </thead>
            <tbody>
              {table.rows.map(({ below_V, interval_s }) => (
                <tr key={interval_s}>
                  <td>{below_V === null ? 'otherwise' : `below ${localised(volts(below_V))}`}</td>
                  <td>{localised(time(interval_s))}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <dl className="answers">
            <Row name="this table" rule={table} />
            {bestFixed !== null && <Row name="best fixed interval" rule={bestFixed} />}
            {bound !== null && (
              <div>
                <dt>ideal that knows the weather</dt>
                <dd>{numberShown(bound.reportsPerDay, 4)} reports a day: a bound that no rule can pass.</dd>
              </div>
            )}
            {confirmed !== null && (
              <div>
                <dt>with other devices and other weather</dt>
                <dd>
                  {shareShown(confirmed.table.winters.share, 3)} of winters (
                  {shareShown(confirmed.table.winters.low, 3)} to{' '}
                  {shareShown(confirmed.table.winters.high, 3)}),{' '}
                  {numberShown(confirmed.table.reportsPerDay, 4)} reports a day, in{' '}
                  {numberShown(confirmed.table.runs)} new runs.
                </dd>
              </div>
            )}
          </dl>
          <div className="buttons">
            <button type="button" onClick={() => write(table)}>
              Write it into the file
            </button>
            {isWritten && (
              <span className="hint" role="status">
                Written. Undo takes it back.
              </span>
            )}
          </div>
        </>
      )}
    </>
  )
}

function Row({ name, rule: { reportsPerDay, winters } }: { readonly name: string; readonly rule: Rule }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {numberShown(reportsPerDay, 4)} reports a day; {shareShown(winters.share, 3)} of winters (
        {shareShown(winters.low, 3)} to {shareShown(winters.high, 3)}).
      </dd>
    </div>
  )
}
