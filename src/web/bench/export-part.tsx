/** The samples of a stretch to take away. */
import { useId, useState } from 'react'
import { ReportButton } from '../work/take-away.tsx'
import type { BenchAddress } from './address.ts'
import { readingOf } from './reading.tsx'
import { placeShown } from './trace/read-out.ts'
import type { Window } from './trace/window.ts'

export interface ExportPartProps {
  readonly bench: BenchAddress
  readonly query: string
  readonly duration_s: number
  /** Of the recording: no other is taken for it. */
  readonly hasVoltage: boolean
}

const FORMATS = { csv: 'CSV', parquet: 'Parquet', npy: 'NumPy (.npy)' } as const

export function ExportPart({ bench, query, duration_s, hasVoltage }: ExportPartProps) {
  const id = useId()
  const [format, setFormat] = useState<keyof typeof FORMATS>('csv')
  const [which, setWhich] = useState('sight')
  const spans: Readonly<Record<string, Window>> = {
    sight: bench.window ?? { from_s: 0, to_s: duration_s },
    whole: { from_s: 0, to_s: duration_s },
    ...Object.fromEntries(bench.notes.map((note, k) => [`note ${k + 1}`, note])),
  }
  const span = spans[which] ?? spans.sight
  const words: Readonly<Record<string, string>> = { sight: 'what is in sight', whole: 'the whole recording' }
  return (
    <section className="part" aria-labelledby="export-title">
      <h2 id="export-title">To take away</h2>
      <div className="fields">
        <div className="field">
          <label htmlFor={`${id}-which`}>The samples of</label>
          <select
            id={`${id}-which`}
            value={which in spans ? which : 'sight'}
            onChange={(event) => setWhich(event.target.value)}
          >
            {Object.keys(spans).map((name) => (
              <option key={name} value={name}>
                {words[name] ?? name}
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-format`}>As</label>
          <select
            id={`${id}-format`}
            value={format}
            onChange={(event) => setFormat(event.target.value as keyof typeof FORMATS)}
          >
            {Object.entries(FORMATS).map(([name, shown]) => (
              <option key={name} value={name}>
                {shown}
              </option>
            ))}
          </select>
        </div>
      </div>
      <p>
        <a
          href={`/api/recording/export?${query}&from=${span.from_s}&to=${span.to_s}&format=${format}`}
          download
        >
          Save {placeShown(span.from_s, span)} to {placeShown(span.to_s, span)} as {FORMATS[format]}
        </a>
      </p>
      {bench.recording !== null && (
        <div className="buttons">
          <ReportButton
            name={bench.recording.replace(/^.*\//, '').replace(/\.\w+(\.gz)?$/, '')}
            of={{
              work: 'read',
              ...readingOf(bench, bench.recording),
              ...(hasVoltage ? { voltage_V: null } : {}),
            }}
          />
        </div>
      )}
    </section>
  )
}
