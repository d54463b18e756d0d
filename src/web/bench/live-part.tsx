/** A serial port on this machine: asked for, running, ended. */
import { useEffect, useId, useState } from 'react'
import type { Ports } from '../../api/bench.ts'
import { useFolder } from '../draft/folder.ts'
import { ask } from '../server/ask.ts'
import { begin, forget, stop, useLive } from './live.ts'
import { LivePictureView } from './live-picture.tsx'
import { RateField, rateOf } from './rate-field.tsx'

export interface LivePartProps {
  readonly onOpen: (file: string) => void
}

export function LivePart({ onOpen }: LivePartProps) {
  const live = useLive()
  if (live.is === 'running')
    return (
      <div className="bench-way">
        <h3>Recording into {live.out}</h3>
        {live.live === null || live.live.picture.samples === 0 ? (
          <p role="status">Nothing has come yet. Is it on, and are port and speed right?</p>
        ) : (
          <LivePictureView live={live.live} />
        )}
        <button type="button" disabled={live.isStopping} onClick={() => void stop()}>
          Stop
        </button>
      </div>
    )
  if (live.is === 'ended') {
    const { out, problem, ending, picture } = live.live
    return (
      <div className="bench-way">
        <h3>Recorded</h3>
        <p role="status">
          {ending === 'stopped' ? 'Stopped. ' : ''}
          {picture.samples} samples are in {out}.
        </p>
        {problem !== null && <p className="problem error">{problem}</p>}
        <p className="buttons">
          <button
            type="button"
            onClick={() => {
              forget()
              onOpen(out)
            }}
          >
            Open {out}
          </button>
          <button type="button" className="quiet" onClick={forget}>
            Record another
          </button>
        </p>
      </div>
    )
  }
  return <PortForm refused={live.is === 'refused' ? live.why : null} />
}

const BAUDS = [9600, 115_200, 230_400, 460_800, 921_600]

function PortForm({ refused }: { readonly refused: string | null }) {
  const id = useId()
  const ports = usePorts()
  const [port, setPort] = useState('')
  const [baud, setBaud] = useState(115_200)
  const [rate, setRate] = useState('')
  const free = useFreeName()
  const [out, setOut] = useState<string | null>(null)
  const rate_Hz = rateOf(rate)
  return (
    <form
      className="bench-way"
      onSubmit={(event) => {
        event.preventDefault()
        if (rate_Hz !== undefined)
          void begin({ port: port || (ports[0] ?? ''), baud, out: out ?? free, rate_Hz })
      }}
    >
      <h3>A serial port</h3>
      <p className="hint">
        Of a current-sense board or a meter that sends lines of time and current. It is read by this machine;
        the lines go into a new file as they come.
      </p>
      <div className="fields">
        <div className="field">
          <label htmlFor={`${id}-port`}>Port</label>
          <input
            id={`${id}-port`}
            type="text"
            list={`${id}-ports`}
            value={port}
            placeholder={ports[0] ?? '/dev/…'}
            required={ports.length === 0}
            onChange={(event) => setPort(event.target.value)}
          />
          <datalist id={`${id}-ports`}>
            {ports.map((each) => (
              <option key={each} value={each} />
            ))}
          </datalist>
        </div>
        <div className="field">
          <label htmlFor={`${id}-baud`}>Speed, baud</label>
          <select id={`${id}-baud`} value={baud} onChange={(event) => setBaud(Number(event.target.value))}>
            {BAUDS.map((each) => (
              <option key={each} value={each}>
                {each}
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-out`}>Into</label>
          <input
            id={`${id}-out`}
            type="text"
            value={out ?? free}
            required
            onChange={(event) => setOut(event.target.value)}
          />
        </div>
        <RateField label="Sampling rate" placeholder="lines have a time" text={rate} onText={setRate} />
      </div>
      {refused !== null && <p className="problem error">{refused}</p>}
      <button type="submit" disabled={rate_Hz === undefined}>
        Record
      </button>
    </form>
  )
}

function usePorts(): readonly string[] {
  const [ports, setPorts] = useState<readonly string[]>([])
  useEffect(() => {
    ask<Ports>('/api/ports').then(
      (found) => setPorts(found.ports),
      () => {}, // without a list, the port is typed
    )
  }, [])
  return ports
}

/** `bench-1.csv`, or on from there. */
function useFreeName(): string {
  const folder = useFolder()
  const taken = new Set(folder.is === 'there' ? folder.folder.recordings.map(({ file }) => file) : [])
  let number = 1
  while (taken.has(`bench-${number}.csv`)) number++
  return `bench-${number}.csv`
}
