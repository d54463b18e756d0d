/** Finding the states: begun by itself where it takes no time to speak of, asked for where it does. */
import { useCallback, useEffect, useRef } from 'react'
import type { Imported, ReadAnswer, Reading } from '../../api/bench.ts'
import { numberShown, shareShown, unbroken } from '../look/shown.ts'
import { useWork, type WorkState } from '../server/work.ts'
import type { BenchAddress } from './address.ts'

/** A second or two. */
const QUICK_SAMPLES = 2_000_000

export const readingOf = (
  { instrument, ranges, voltage_V, rate_Hz }: BenchAddress,
  file: string,
  span: BenchAddress['window'] = null,
): Reading => ({
  file,
  rate_Hz,
  from_s: span?.from_s ?? null,
  to_s: span?.to_s ?? null,
  voltage_V,
  instrument,
  ranges: instrument === null ? [] : ranges,
})

/** Null for the span reads the whole. */
export function useReading(bench: BenchAddress, imported: Imported) {
  const { state, start, cancel } = useWork<'read'>()
  const { rate_Hz, instrument, voltage_V } = bench
  const { file, samples, hasVoltage } = imported
  // As a text, which stays the same as long as it says the same.
  const ranges = instrument === null ? '' : bench.ranges.join(';')
  const begin = useCallback(
    (span: BenchAddress['window']) => {
      const measured = { rate_Hz, instrument, ranges: ranges === '' ? [] : ranges.split(';') }
      const voltage = hasVoltage ? null : voltage_V
      const [from_s, to_s] = [span?.from_s ?? null, span?.to_s ?? null]
      start({ work: 'read', file, ...measured, voltage_V: voltage, from_s, to_s })
    },
    [start, file, rate_Hz, instrument, ranges, voltage_V, hasVoltage],
  )
  useEffect(() => {
    if (samples <= QUICK_SAMPLES) begin(null)
  }, [begin, samples])
  // While it is read anew, with another instrument, what was found before stays in sight.
  const last = useRef<ReadAnswer | null>(null)
  if (state.is === 'done') last.current = state.answer
  else if (state.is !== 'working') last.current = null
  return { state, answer: last.current, start: begin, cancel }
}

export interface ReadingWordsProps {
  readonly state: WorkState<'read'>
  readonly answer: ReadAnswer | null
  readonly imported: Imported
  readonly bench: BenchAddress
  readonly onStart: (span: BenchAddress['window']) => void
  readonly onCancel: () => void
}

export function ReadingWords({ state, answer, imported, bench, onStart, onCancel }: ReadingWordsProps) {
  switch (state.is) {
    case 'done':
      return (
        <div aria-live="polite">
          <p className="bench-verdict">{unbroken(answer?.reading.verdict ?? '')}</p>
          {answer !== null && answer.cycles > answer.reading.cycles.list.length && (
            <p className="hint">
              Of {numberShown(answer.cycles, 9)} wakes the first{' '}
              {numberShown(answer.reading.cycles.list.length, 9)} are listed.
            </p>
          )}
        </div>
      )
    case 'working': {
      const share = state.told?.event === 'progress' ? state.told.done / state.told.of : null
      return (
        <p className="waiting" role="status">
          Finding states and wakes in {numberShown(imported.samples, 3)} samples …{' '}
          {share !== null && (
            <>
              <progress value={share} aria-label="States found so far" /> {shareShown(share)}{' '}
            </>
          )}
          <button type="button" className="quiet" onClick={onCancel}>
            Cancel
          </button>
        </p>
      )
    }
    default:
      return (
        <div className="buttons">
          {state.is === 'refused' && <p className="problem error">{state.why}</p>}
          <button type="button" onClick={() => onStart(null)}>
            Find states and wakes
          </button>
          {bench.window !== null && (
            <button type="button" className="quiet" onClick={() => onStart(bench.window)}>
              only in what is in sight
            </button>
          )}
        </div>
      )
  }
}
