/** The two edges of the chosen note, to be dragged, or moved by keys. */
import type { KeyboardEvent, PointerEvent } from 'react'
import { edgeAfterKey } from './keys.ts'
import { type Layout, plotWidth, timeAt } from './layout.ts'
import { placeShown } from './read-out.ts'
import type { Window } from './window.ts'

export interface EdgeHandlesProps {
  readonly notes: readonly Window[]
  readonly chosen: number | null
  readonly layout: Layout
  readonly windowNow: () => Window | null
  readonly onEdge: (note: number, span: Window) => void
  readonly onRemove: (note: number) => void
}

type End = 'from' | 'to'

export function EdgeHandles({ notes, chosen, layout, windowNow, onEdge, onRemove }: EdgeHandlesProps) {
  const note = chosen === null ? undefined : notes[chosen]
  if (note === undefined || chosen === null) return null
  const moved = (end: End, time_s: number, window: Window) => {
    const at = Math.min(Math.max(time_s, window.from_s), window.to_s)
    const span = end === 'from' ? { ...note, from_s: at } : { ...note, to_s: at }
    if (span.from_s < span.to_s) onEdge(chosen, span)
  }
  const onKey = (end: End) => (event: KeyboardEvent) => {
    const window = windowNow()
    if (window === null || event.ctrlKey || event.metaKey || event.altKey) return
    if (event.key === 'Delete' || event.key === 'Backspace') {
      event.preventDefault()
      return onRemove(chosen)
    }
    const at_s = end === 'from' ? note.from_s : note.to_s
    const next = edgeAfterKey(event.key, event.shiftKey, at_s, window, 1 / plotWidth(layout))
    if (next === null) return
    event.preventDefault()
    moved(end, next, window)
  }
  const onDrag = (end: End) => (event: PointerEvent) => {
    const window = windowNow()
    if (window === null || !event.currentTarget.hasPointerCapture(event.pointerId)) return
    const box = event.currentTarget.parentElement?.getBoundingClientRect()
    moved(end, timeAt(layout, window, event.clientX - (box?.left ?? 0)), window)
  }
  return (['from', 'to'] as const).map((end) => {
    const at_s = end === 'from' ? note.from_s : note.to_s
    const window = windowNow() ?? note
    return (
      <div
        key={end}
        className="edge handle"
        data-note={chosen}
        data-end={end}
        role="slider"
        tabIndex={0}
        aria-label={`Note ${chosen + 1}, ${end === 'from' ? 'where it begins' : 'where it ends'}`}
        aria-valuenow={at_s}
        aria-valuemin={window.from_s}
        aria-valuemax={window.to_s}
        aria-valuetext={placeShown(at_s, window)}
        style={{ top: layout.top, height: layout.bottom - layout.top }}
        onKeyDown={onKey(end)}
        onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
        onPointerMove={onDrag(end)}
      />
    )
  })
}
