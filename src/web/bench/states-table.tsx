/** The states that were found: what each draws, how sure that is, and what it takes of time and charge. */
import type { RecordingReading } from '../../report/recording-reading.ts'
import { currentInWords, duration, instrumentInWords, percent } from '../../report/recording-words.ts'
import { localised } from '../look/shown.ts'

export function StatesTable({ reading }: { readonly reading: RecordingReading }) {
  const { states, instrument } = reading
  const warnings = instrumentInWords(reading)
  return (
    <section className="part" aria-labelledby="states-title">
      <h2 id="states-title">States</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="wide" tabIndex={0} aria-label="States, table">
        <table className="states">
          <thead>
            <tr>
              <th scope="col">state</th>
              <th scope="col" className="number">
                current
              </th>
              <th scope="col" className="number">
                lasts
              </th>
              <th scope="col" className="number">
                visits
              </th>
              <th scope="col" className="number">
                of the time
              </th>
              <th scope="col" className="number">
                of the charge
              </th>
              <td />
            </tr>
          </thead>
          <tbody>
            {states.map((state) => (
              <tr key={state.name}>
                <th scope="row">{state.rests ? `${state.name}, at rest` : state.name}</th>
                <td className="number">{localised(currentInWords(state.current))}</td>
                <td className="number">
                  {state.dwell === null ? '–' : localised(duration(state.dwell.median_s))}
                </td>
                <td className="number">{state.visits}</td>
                <td className="number">{localised(percent(state.timeShare))}</td>
                <td className="number">{localised(percent(state.chargeShare))}</td>
                <td className="share" aria-hidden="true">
                  <span className="share-bar" style={{ width: `${100 * Math.max(state.chargeShare, 0)}%` }} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {warnings.map((sentence) => (
        <p key={sentence} className="problem warning">
          {localised(sentence)}
        </p>
      ))}
      <p className="hint">
        Behind ± stands twice the standard uncertainty,{' '}
        {instrument === null
          ? 'from scatter alone: say below what it was measured with'
          : `with that of the ${instrument}`}
        . “Lasts” is the median of a visit.
      </p>
    </section>
  )
}
