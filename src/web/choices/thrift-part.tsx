/** What the firmware should do when light fails: intervals by battery voltage, beside the best fixed one and the ideal. */
import { useId, useMemo, useState } from 'react'
import type { Answers, OfOutpost } from '../../api/work.ts'
import type { Rule } from '../../decisions/thrift.ts'
import { parseOutpostDocument } from '../../outpost/file/document.ts'
import { INTERVALS } from '../../quantity/parse-quantities.ts'
import { thriftInWords } from '../../report/thrift.ts'
import { openedNow, useDraft } from '../draft/keeper.ts'
import { useAsked } from '../form/asked-field.tsx'
import { useForm } from '../form/form.ts'
import { localised, numberShown, shareShown } from '../look/shown.ts'
import { useWork } from '../server/work.ts'
import { quantitiesFrom, quantityFrom, SHARE_TO_SURVIVE } from '../work/quantity-from.ts'
import { WorkPart } from '../work/work-part.tsx'
import { pressName, type Thrifty, thriftEdits, time, volts, whyNotWritten } from './thrift-edits.ts'

type ThriftReport = Answers['thrift']

export function ThriftPart() {
  const desk = useWork<'thrift'>()
  const id = useId()
  const [texts, field] = useAsked({
    intervals: '',
    wanted: '',
    hysteresis: '',
    resolution: '',
    offset: '',
  })
  const [mostRows, setMostRows] = useState(3)
  const intervals = quantitiesFrom(texts.intervals, 'duration', INTERVALS)
  const wanted = quantityFrom(texts.wanted, 'ratio', SHARE_TO_SURVIVE)
  const hysteresis = quantityFrom(texts.hysteresis, 'voltage', HYSTERESIS)
  const resolution = quantityFrom(texts.resolution, 'voltage', RESOLUTION)
  const offset = quantityFrom(texts.offset, 'voltage', OFFSET)
  return (
    <WorkPart
      title="When light fails"
      name="thrift"
      lead="A table of intervals by battery voltage, for firmware that slows down when the cell is low: most reports at the wanted survival."
      desk={desk}
      press="Find the table"
      plays={{ runs: { label: 'Devices on which tables are tried', low: 8, high: 100_000 }, weather: true }}
      isWrong={[intervals, wanted, hysteresis, resolution, offset].some(({ problem }) => problem !== null)}
      asks={(outpost, { runs, weather }) => ({
        work: 'thrift',
        ...outpost,
        runs,
        weather,
        intervals_s: intervals.value,
        mostRows,
        wanted: wanted.value,
        hysteresis_V: hysteresis.value ?? USUAL.hysteresis_V,
        converter: {
          resolution_V: resolution.value ?? USUAL.resolution_V,
          // What stands behind ± is twice the standard deviation.
          offset_V: (offset.value ?? USUAL.offset_V) / 2,
        },
      })}
      before={
        <div className="fields">
          {field('intervals', 'Allowed intervals', intervals, 'that of the file, and longer')}
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
          {field('wanted', 'Share to survive', wanted, 'the aim of the file')}
          {field(
            'hysteresis',
            'A row is left so far above its voltage',
            hysteresis,
            volts(USUAL.hysteresis_V),
          )}
          {field(
            'resolution',
            'Firmware reads the battery in steps of',
            resolution,
            volts(USUAL.resolution_V),
          )}
          {field('offset', 'What it reads may be out by ± (95 %)', offset, volts(USUAL.offset_V))}
        </div>
      }
    >
      {desk.state.is === 'done' && <Found thrift={desk.state.answer} asked={desk.state.asked} />}
    </WorkPart>
  )
}

/** As the command takes them. */
const USUAL = { hysteresis_V: 0.05, resolution_V: 0.005, offset_V: 0.02 }
const HYSTERESIS = { low: 0.001, high: 1, wanted: 'A voltage from 1 mV to 1 V' }
const RESOLUTION = { low: 0.0001, high: 0.5, wanted: 'A voltage from 0.1 mV to 0.5 V' }
const OFFSET = { low: 0, high: 1, wanted: 'A voltage from 0 V to 1 V' }

interface FoundProps {
  readonly thrift: ThriftReport
  readonly asked: OfOutpost
}

function Found({ thrift, asked }: FoundProps) {
  const { table, bestFixed, bound, confirmed } = thrift
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
          <WriteIt thrifty={{ ...thrift, table }} asked={asked} />
        </>
      )}
    </>
  )
}

interface WriteItProps {
  readonly thrifty: Thrifty
  readonly asked: OfOutpost
}

/** One press, one step that undo takes back. */
function WriteIt({ thrifty, asked }: WriteItProps) {
  const form = useForm()
  const text = useDraft()?.text
  /** The file as the press left it. */
  const [written, setWritten] = useState<string | null>(null)
  const document = useMemo(() => parseOutpostDocument(asked.text), [asked.text])
  const whyNot = whyNotWritten(thrifty, { document, variant: asked.variant }, form.document)
  const write = () => {
    if (!form.inOneStep('writing the intervals that were found', thriftEdits(thrifty))) return
    const now = openedNow()
    setWritten(now.is === 'open' ? now.draft.text : null)
  }
  if (whyNot !== null) return <p className="hint">{whyNot}</p>
  return (
    <div className="buttons">
      <button type="button" onClick={write}>
        {pressName(thrifty, form.document)}
      </button>
      {written !== null && written === text && (
        <span className="hint" role="status">
          Written. Undo takes it back.
        </span>
      )}
    </div>
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
