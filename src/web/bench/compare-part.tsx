/** Two recordings of the same device: which states came, went or moved, and what that does to the outpost that is open. */
import { useId, useState } from 'react'
import { counted } from '../../quantity/counted.ts'
import type { Dimension } from '../../quantity/dimension.ts'
import { formatQuantity } from '../../quantity/format.ts'
import type { Tested } from '../../recording/difference.ts'
import type { RecordingComparison } from '../../report/recording-comparison.ts'
import {
  chanceInWords,
  differenceInWords,
  lifeChangeInWords,
} from '../../report/recording-comparison-words.ts'
import { currentInWords, percent } from '../../report/recording-words.ts'
import type { Draft } from '../draft/draft.ts'
import { useFolder } from '../draft/folder.ts'
import { localised, numberShown, shareShown, unbroken } from '../look/shown.ts'
import { useRoute } from '../route.ts'
import { useWork } from '../server/work.ts'
import { SEED } from '../verdict/answers.ts'
import type { BenchAddress } from './address.ts'
import { readingOf } from './reading.tsx'

export interface ComparePartProps {
  readonly bench: BenchAddress
  readonly change: (change: Partial<BenchAddress>) => void
  readonly draft: Draft | null
}

export function ComparePart({ bench, change, draft }: ComparePartProps) {
  const id = useId()
  const folder = useFolder()
  const { variant } = useRoute()
  const { state, start, cancel } = useWork<'compare recordings'>()
  const [plays, setPlays] = useState(true)
  const { recording, beside } = bench
  const others = (folder.is === 'there' ? folder.folder.recordings : []).filter(
    ({ file }) => file !== recording,
  )
  const ask = () => {
    if (recording === null || beside === null) return
    const outpost =
      draft !== null && plays ? { file: draft.file, text: draft.text, variant, seed: SEED } : null
    const [before, after] = [
      // The ranges that were set by hand are those of the recording that is open.
      readingOf({ ...bench, ranges: [] }, beside),
      readingOf(bench, recording),
    ]
    start({ work: 'compare recordings', before, after, outpost })
  }
  const progress =
    state.is === 'working' && state.told?.event === 'progress' ? state.told.done / state.told.of : null
  return (
    <section className="part" aria-labelledby="compare-title">
      <h2 id="compare-title">Beside another build</h2>
      {others.length === 0 ? (
        <p>
          There is no other recording in the folder. Drop one at the top of the page to compare two builds.
        </p>
      ) : (
        <>
          <div className="fields">
            <div className="field">
              <label htmlFor={id}>The build before</label>
              <select
                id={id}
                value={beside ?? ''}
                onChange={(event) =>
                  change({ beside: event.target.value === '' ? null : event.target.value })
                }
              >
                <option value="">choose a recording</option>
                {beside !== null && !others.some(({ file }) => file === beside) && <option>{beside}</option>}
                {others.map(({ file }) => (
                  <option key={file}>{file}</option>
                ))}
              </select>
            </div>
          </div>
          {draft !== null && (
            <label className="check">
              <input type="checkbox" checked={plays} onChange={(event) => setPlays(event.target.checked)} />{' '}
              and what it does to {draft.file}
            </label>
          )}
          <div className="buttons">
            <button type="button" disabled={beside === null} onClick={ask}>
              Compare
            </button>
            {state.is === 'working' && (
              <>
                <span className="waiting" role="status">
                  Reading both{progress === null ? ' …' : ', and playing years: '}
                  {progress !== null && <progress value={progress} aria-label="Runs played" />}
                </span>
                <button type="button" className="quiet" onClick={cancel}>
                  Cancel
                </button>
              </>
            )}
          </div>
        </>
      )}
      {state.is === 'refused' && <pre className="problem error">{state.why}</pre>}
      {state.is === 'done' && <Compared comparison={state.answer} />}
    </section>
  )
}

function Compared({ comparison }: { readonly comparison: RecordingComparison }) {
  const { before, after, difference, outlook, verdict } = comparison
  const rows = rowsOf(comparison)
  return (
    <div aria-live="polite">
      <p className="bench-verdict">{unbroken(verdict)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="wide" tabIndex={0} aria-label="Differences, table">
        <table className="differences">
          <thead>
            <tr>
              <th scope="col" />
              <th scope="col" className="number">
                before
              </th>
              <th scope="col" className="number">
                after
              </th>
              <th scope="col" className="number">
                difference (95 %)
              </th>
              <th scope="col" className="number">
                chance
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ name, cells, counts }) => (
              <tr key={name} className={counts ? 'counts' : ''}>
                <th scope="row">{name}</th>
                {cells.map((cell, k) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other name
                  <td key={k} className="number">
                    {localised(cell)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {outlook !== null && (
        <dl className="terms">
          {[
            [before.file, outlook.before.verdict],
            [after.file, outlook.after.verdict],
            [
              'The change',
              `${
                outlook.rechargeable
                  ? `${shareShown(outlook.differences.survival.mean)} of the winters (95 % interval ${shareShown(outlook.differences.survival.low)} to ${shareShown(outlook.differences.survival.high)})`
                  : lifeChangeInWords(outlook.differences.life_days)
              }, run by run through the same weather: ${counted(outlook.runs, 'run', numberShown)} of ${counted(outlook.years, 'year', numberShown)}`,
            ],
          ].map(([name, text]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{localised(text)}</dd>
            </div>
          ))}
        </dl>
      )}
      <p className="hint">
        Chance: that so much would show between alike recordings, all {difference.questions} questions allowed
        for; below {localised(String(difference.significance))} it counts, and is written strongly. Errors
        that both share, of one instrument, are not in the intervals.
      </p>
    </div>
  )
}

interface Row {
  readonly name: string
  readonly cells: readonly string[]
  readonly counts: boolean
}

function rowsOf({ before, after, difference }: RecordingComparison): Row[] {
  const { states, charge, work, period } = difference
  const ofStates = states.flatMap((each): Row[] => {
    const was = each.before === null ? null : before.states[each.before]
    const is = each.after === null ? null : after.states[each.after]
    if (was === null || is === null) {
      const only = was ?? is
      if (only === null) return []
      const words = `${currentInWords(only.current)}, ${percent(only.chargeShare)} of the charge`
      const cells = [
        was === null ? '–' : words,
        is === null ? '–' : words,
        is === null ? 'vanished' : 'appeared',
      ]
      const { presence } = each
      return [
        {
          name: only.name,
          cells: [...cells, presence === null ? '' : chanceInWords(presence.pAdjusted)],
          counts: presence?.significant ?? true,
        },
      ]
    }
    const letters = was.name === is.name ? was.name : `${was.name} → ${is.name}`
    const name = was.rests && is.rests ? `${letters}, at rest` : letters
    return [
      ...testedRow(name, each.current, 'current'),
      ...testedRow(`${letters} lasts`, each.dwell, 'duration'),
    ]
  })
  return [
    ...ofStates,
    ...testedRow('charge of a cycle', charge, 'charge'),
    ...testedRow('work of a cycle', work, 'duration'),
    ...testedRow('period', period, 'duration'),
  ]
}

function testedRow(name: string, tested: Tested | null, dimension: Dimension): Row[] {
  if (tested === null) return []
  const side = (value: number) => formatQuantity(value, dimension, { digits: 4 })
  return [
    {
      name,
      cells: [
        side(tested.before),
        side(tested.after),
        differenceInWords(tested, dimension),
        chanceInWords(tested.pAdjusted),
      ],
      counts: tested.significant,
    },
  ]
}
