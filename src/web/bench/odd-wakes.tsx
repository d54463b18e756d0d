/** Wakes that were not like the others, each with the likely reason. */
import { useState } from 'react'
import type { RecordingReading } from '../../report/recording-reading.ts'
import { chargeInWords, oddityInWords, placeInTime } from '../../report/recording-words.ts'
import { localised } from '../look/shown.ts'

export interface OddWakesProps {
  readonly reading: RecordingReading
  readonly chosen: number | null
  /** Drawn over the others, and shown in the trace. */
  readonly onChoose: (cycle: number | null) => void
}

const SHOWN = 12

export function OddWakes({ reading, chosen, onChoose }: OddWakesProps) {
  const [isAll, setAll] = useState(false)
  const { cycles, states, span } = reading
  const odd = cycles.list.flatMap((cycle, k) => (cycle.odd.length > 0 ? [{ cycle, k }] : []))
  if (odd.length === 0) return null
  const shown = isAll ? odd : odd.slice(0, SHOWN)
  return (
    <section className="part" aria-labelledby="odd-title">
      <h3 id="odd-title">Odd wakes</h3>
      <ul className="lines">
        {shown.map(({ cycle: { start_s, charge_C, odd: reasons }, k }) => (
          <li key={k}>
            At {localised(placeInTime(span.from_s + start_s))} it{' '}
            {localised(reasons.map((reason) => oddityInWords(reason, states)).join('; '))}
            {charge_C === null ? '' : ` (${localised(chargeInWords({ charge_C, u_C: null }))})`}.{' '}
            <button
              type="button"
              className="quiet"
              aria-pressed={chosen === k}
              onClick={() => onChoose(chosen === k ? null : k)}
            >
              {chosen === k ? 'Shown' : 'Show it'}
            </button>
          </li>
        ))}
      </ul>
      {odd.length > shown.length && (
        <button type="button" className="quiet" onClick={() => setAll(true)}>
          Show all {odd.length}
        </button>
      )}
    </section>
  )
}
