/** The rhythm of the wakes, in a list of terms. */
import type { RecordingReading } from '../../report/recording-reading.ts'
import { chargeInWords, duration, namesOf } from '../../report/recording-words.ts'
import { localised } from '../look/shown.ts'

export function CyclesWords({ reading, all }: { readonly reading: RecordingReading; readonly all: number }) {
  const { cycles, states, cycleCharge, interval_s } = reading
  const { period_s, jitter_s, clock, work_s, typical } = cycles
  const around = (median: number, p5: number, p95: number) =>
    `${duration(median)}, nine in ten from ${duration(p5)} to ${duration(p95)}`
  // Edges are known to a sample, so less than that is not seen.
  const jitter =
    jitter_s === null
      ? ''
      : `; jitter ${jitter_s < interval_s ? `below ${duration(interval_s)}` : duration(jitter_s)}`
  const rows: (readonly [string, string])[] = [
    ...(period_s === null
      ? []
      : [['Period', around(period_s.median, period_s.p5, period_s.p95) + jitter] as const]),
    ...(clock === null
      ? []
      : [
          [
            'On the clock',
            `every ${clock.minutes === 1 ? 'minute' : `${clock.minutes} minutes`}, ${clock.second_s === null ? 'at the same second' : `at second ${clock.second_s.toFixed(1)}`}, give or take ${duration(clock.deviation_s)}`,
          ] as const,
        ]),
    ...(work_s === null ? [] : [['Work', around(work_s.median_s, work_s.p5_s, work_s.p95_s)] as const]),
    ...(typical === null
      ? []
      : [
          ['Typical wake', `${namesOf(states, typical.sequence)}: ${typical.wakes} of ${all} wakes`] as const,
        ]),
    ...(cycleCharge === null
      ? []
      : [['Charge', `${chargeInWords(cycleCharge)} a cycle on average`] as const]),
  ]
  if (rows.length === 0) return null
  return (
    <dl className="terms">
      {rows.map(([name, text]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{localised(text)}</dd>
        </div>
      ))}
    </dl>
  )
}
