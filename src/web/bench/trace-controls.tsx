/** Buttons that do what wheel, fingers and keys do, and how the trace is drawn. */
import type { RefObject } from 'react'
import type { BenchAddress } from './address.ts'
import type { TraceDesk } from './trace/desk.ts'
import { windowAfterKey } from './trace/keys.ts'

export interface TraceControlsProps {
  readonly bench: BenchAddress
  readonly change: (change: Partial<BenchAddress>, quietly?: boolean) => void
  readonly desk: RefObject<TraceDesk | null>
  readonly marks: boolean
  readonly onMarks: (marks: boolean) => void
  readonly onMark: () => void
}

const MOVES = [
  ['←', 'ArrowLeft', 'To the left'],
  ['→', 'ArrowRight', 'To the right'],
  ['+', '+', 'Nearer'],
  ['−', '-', 'Further'],
] as const

export function TraceControls({ bench, change, desk, marks, onMarks, onMark }: TraceControlsProps) {
  const press = (key: string) => {
    const now = desk.current
    const next = now && windowAfterKey(key, false, now.window, now.limits, 0)
    if (now !== null && next != null) now.move(next)
  }
  return (
    <div className="trace-controls">
      {MOVES.map(([sign, key, words]) => (
        <button
          key={key}
          type="button"
          className="quiet sign"
          aria-label={words}
          title={words}
          onClick={() => press(key)}
        >
          {sign}
        </button>
      ))}
      <button type="button" className="quiet" onClick={() => press('Home')}>
        Whole
      </button>
      <button type="button" className="quiet" onClick={onMark}>
        Note a stretch
      </button>
      <label className="check">
        <input type="checkbox" checked={marks} onChange={(event) => onMarks(event.target.checked)} /> dragging
        notes
      </label>
      <label className="check">
        <input
          type="checkbox"
          checked={bench.scale === 'log'}
          onChange={(event) => change({ scale: event.target.checked ? 'log' : 'linear' }, true)}
        />{' '}
        logarithmic
      </label>
      <label className="check">
        <input
          type="checkbox"
          checked={bench.fits}
          onChange={(event) => change({ fits: event.target.checked }, true)}
        />{' '}
        height as in sight
      </label>
      <p className="hint trace-hint" id="trace-keys">
        Drag moves, wheel or two fingers zoom once the trace is chosen, Shift and dragging notes a stretch.
        Keys: arrows left and right move (with Shift by a pixel), + and − zoom, Home shows the whole, Enter
        notes the middle.
      </p>
    </div>
  )
}
