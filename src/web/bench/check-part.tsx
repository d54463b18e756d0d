/** Does this build stay inside the budget of the outpost that is open: pass, fail, or not to be told, each with its reason. */
import { useId, useState } from 'react'
import type { Checked } from '../../api/bench.ts'
import { checkVerdict, itemInWords, itemName } from '../../report/check-report.ts'
import { flawSentences } from '../../report/recording-words.ts'
import type { Draft } from '../draft/draft.ts'
import { saveAs } from '../figure/save.ts'
import { unbroken } from '../look/shown.ts'
import { useRoute } from '../route.ts'
import { useWork } from '../server/work.ts'
import type { BenchAddress } from './address.ts'
import { mapsOf, WhereField } from './match-form.tsx'
import type { MatchSaid } from './use-match.ts'

export interface CheckPartProps {
  readonly bench: BenchAddress
  readonly draft: Draft
  readonly match: MatchSaid
}

const SLACKS = [0, 5, 10, 20]

export function CheckPart({ bench, draft, match: { chosen, where, setWhere } }: CheckPartProps) {
  const id = useId()
  const { state, start, cancel } = useWork<'check'>()
  const { variant } = useRoute()
  const [slack, setSlack] = useState(0)
  const [cadence, setCadence] = useState(false)
  const { recording, rate_Hz, instrument } = bench
  const ask = () => {
    if (recording === null) return
    const outpost = { file: draft.file, text: draft.text, variant }
    const measured = { rate_Hz, instrument, ranges: instrument === null ? [] : bench.ranges }
    const match = { file: recording, ...measured, outpost, maps: mapsOf(chosen), where }
    start({ work: 'check', ...match, slack: slack / 100, cadence })
  }
  return (
    <section className="part" aria-labelledby="check-title">
      <h2 id="check-title">Against the budget</h2>
      <p>
        Whether this build draws no more than {draft.file} allows, measurement uncertainty counted; the same
        as <code>overwinter check</code> does in continuous integration.
      </p>
      <div className="fields">
        <WhereField where={where} onWhere={setWhere} />
        <div className="field">
          <label htmlFor={`${id}-slack`}>Allowed beyond the tolerance</label>
          <select id={`${id}-slack`} value={slack} onChange={(event) => setSlack(Number(event.target.value))}>
            {SLACKS.map((each) => (
              <option key={each} value={each}>
                {each === 0 ? 'nothing' : `${each} %`}
              </option>
            ))}
          </select>
        </div>
      </div>
      <label className="check">
        <input type="checkbox" checked={cadence} onChange={(event) => setCadence(event.target.checked)} />{' '}
        judge how often it wakes, too
      </label>
      <div className="buttons">
        <button type="button" onClick={ask}>
          Check it
        </button>
        {state.is === 'working' && (
          <button type="button" className="quiet" onClick={cancel}>
            Cancel
          </button>
        )}
      </div>
      {state.is === 'working' && <p className="waiting">Measuring …</p>}
      {state.is === 'refused' && (
        <>
          <pre className="problem error">{state.why}</pre>
          <p className="hint">
            Which state is which step is said under “Into {draft.file}”, and holds here too.
          </p>
        </>
      )}
      {state.is === 'done' && <Judged checked={state.answer} recording={recording ?? ''} />}
    </section>
  )
}

const SIGNS = { pass: '✓', fail: '✗', 'cannot tell': '?' } as const

function Judged({
  checked: { report, text, junit },
  recording,
}: {
  readonly checked: Checked
  readonly recording: string
}) {
  const name = recording.replace(/^.*\//, '').replace(/\.\w+(\.gz)?$/, '')
  return (
    <div aria-live="polite">
      <p className="bench-verdict">{unbroken(checkVerdict(report, false))}</p>
      <ul className="lines judged">
        {report.items.map((item) => (
          <li
            key={`${item.kind} ${item.name} ${item.states.join()}`}
            className={item.verdict.replace(' ', '-')}
          >
            <span className="judgement">
              <span aria-hidden="true">{SIGNS[item.verdict]}</span> {item.verdict}
            </span>{' '}
            {itemName(item, report)}: {unbroken(itemInWords(item))}.
          </li>
        ))}
      </ul>
      {flawSentences(report.recording, report.flaws).map((sentence) => (
        <p key={sentence} className="problem warning">
          {unbroken(sentence)}
        </p>
      ))}
      <p className="hint">
        Pass or fail where the odds are 95 of 100 or more (ISO 14253-1, JCGM 106); ± is twice the standard
        uncertainty.
        {report.instrument === null && ' The instrument is not known, so only scatter counts.'}
      </p>
      <p>
        <button
          type="button"
          className="quiet"
          onClick={() => saveAs(`${name}-check.txt`, text, 'text/plain')}
        >
          Save as text
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => saveAs(`${name}-check.xml`, junit, 'application/xml')}
        >
          Save as JUnit
        </button>
      </p>
    </div>
  )
}
