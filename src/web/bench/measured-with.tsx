/** With what it was measured, which says how sure each current is, and at which voltage, which makes charge energy. */
import { useEffect, useId, useState } from 'react'
import { parseQuantity } from '../../quantity/parse-quantity.ts'
import { useFolder } from '../draft/folder.ts'
import type { BenchAddress } from './address.ts'

export interface MeasuredWithProps {
  readonly bench: BenchAddress
  readonly change: (change: Partial<BenchAddress>) => void
  /** Voltage is in it already. */
  readonly hasVoltage: boolean
}

export function MeasuredWith({ bench, change, hasVoltage }: MeasuredWithProps) {
  const id = useId()
  const folder = useFolder()
  const instruments = folder.is === 'there' ? folder.folder.instruments : []
  const [text, setText] = useState(bench.voltage_V === null ? '' : `${bench.voltage_V} V`)
  const given = bench.ranges.join('; ')
  const [ranges, setRanges] = useState(given)
  // The way back changes the address, and the fields with it.
  useEffect(() => setText(bench.voltage_V === null ? '' : `${bench.voltage_V} V`), [bench.voltage_V])
  useEffect(() => setRanges(given), [given])
  const read =
    text.trim() === ''
      ? null
      : parseQuantity(/[a-z]/i.test(text) ? text.trim() : `${text.trim()} V`, 'voltage')
  const isWrong = read !== null && !(read.ok && read.value > 0)
  return (
    <div className="fields measured-with">
      <div className="field">
        <label htmlFor={`${id}-instrument`}>Measured with</label>
        <select
          id={`${id}-instrument`}
          value={bench.instrument ?? ''}
          onChange={(event) => change({ instrument: event.target.value === '' ? null : event.target.value })}
        >
          <option value="">an instrument that is not known</option>
          {bench.instrument !== null && !instruments.includes(bench.instrument) && (
            <option>{bench.instrument}</option>
          )}
          {instruments.map((each) => (
            <option key={each}>{each}</option>
          ))}
        </select>
        {instruments.length === 0 && (
          <p className="hint">The folder has no instrument file (*.yaml that begins with “instrument:”).</p>
        )}
      </div>
      {bench.instrument !== null && (
        <div className="field">
          <label htmlFor={`${id}-ranges`}>Ranges set by hand</label>
          <input
            id={`${id}-ranges`}
            type="text"
            value={ranges}
            placeholder="none, or 2 min=400 mA; 5 min=40 mA"
            autoComplete="off"
            onChange={(event) => setRanges(event.target.value)}
            onBlur={() => change({ ranges: partsOf(ranges) })}
            onKeyDown={(event) => {
              if (event.key === 'Enter') change({ ranges: partsOf(ranges) })
            }}
          />
          <p className="hint">from when on, and the range's name in the instrument's file</p>
        </div>
      )}
      {!hasVoltage && (
        <div className={`field ${isWrong ? 'has-error' : ''}`}>
          <label htmlFor={`${id}-voltage`}>At a voltage of</label>
          <input
            id={`${id}-voltage`}
            type="text"
            value={text}
            placeholder="not known"
            autoComplete="off"
            aria-invalid={isWrong}
            onChange={(event) => setText(event.target.value)}
            onBlur={() => {
              if (!isWrong) change({ voltage_V: read?.ok ? read.value : null })
            }}
            onKeyDown={(event) => {
              if (event.key === 'Enter' && !isWrong) change({ voltage_V: read?.ok ? read.value : null })
            }}
          />
          {isWrong && <p className="problem error">A voltage is wanted, as in “3.3 V”.</p>}
        </div>
      )}
    </div>
  )
}

const partsOf = (text: string): string[] =>
  text
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '')
