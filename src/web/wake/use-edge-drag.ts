/** The edge between two steps, moved by mouse, touch or keys: writes how long the step before it lasts. */
import { type KeyboardEvent, type PointerEvent, useState } from 'react'
import type { Form } from '../form/form.ts'
import { handy, inGrains, retimed, unitOf_s } from './retimed.ts'
import { durationText, stepPath } from './use-wave.ts'
import type { WaveStep } from './wave-parts.ts'

/** A press of an arrow key changes a duration by at most this share of it; Page Up and Page Down by ten times that. */
const KEY_SHARE = 0.05
const PAGE = 10
/** A drag goes in handy amounts of about so many pixels, and never coarser than a tenth of the duration. */
const DRAG_px = 2
const COARSEST_SHARE = 0.1

export interface Drag {
  /** Which of the steps' ends. */
  readonly edge: number
  readonly from_px: number
  readonly duration_s: number
  /** Of every step when the drag began: the paper holds still under the pointer. */
  readonly widths: readonly number[]
}

export interface EdgeDrag {
  readonly drag: Drag | null
  /** Widths of the steps while one is dragged: only its own follows. */
  readonly widthsNow: (widths: readonly number[]) => readonly number[]
  readonly onDown: (edge: number, event: PointerEvent<Element>) => void
  readonly onMove: (event: PointerEvent<Element>) => void
  readonly onUp: () => void
  readonly onKey: (edge: number, event: KeyboardEvent) => void
}

export function useEdgeDrag(form: Form, steps: readonly WaveStep[], widths: readonly number[]): EdgeDrag {
  const [drag, setDrag] = useState<Drag | null>(null)
  const write = (edge: number, next_s: (unit_s: number) => number) => {
    const text = durationText(form, steps[edge])
    const unit_s = unitOf_s(text)
    if (unit_s === null) return
    const next = retimed(text, next_s(unit_s))
    if (next !== null && next !== text)
      form.setValue([...stepPath(steps[edge]), 'for'], next, `how long ${steps[edge].step.name} lasts`)
  }
  return {
    drag,
    widthsNow: (now) =>
      drag === null
        ? now
        : drag.widths.map((width, i) =>
            i === drag.edge ? (width * steps[i].step.duration_s) / drag.duration_s : width,
          ),
    onDown(edge, event) {
      if (event.button !== 0) return
      event.currentTarget.setPointerCapture(event.pointerId)
      event.preventDefault()
      ;(event.currentTarget as SVGElement).focus({ preventScroll: true })
      setDrag({ edge, from_px: event.clientX, duration_s: steps[edge].step.duration_s, widths })
    },
    onMove(event) {
      if (drag === null) return
      const { edge, duration_s } = drag
      const perPixel_s = duration_s / drag.widths[edge]
      const next_s = duration_s + (event.clientX - drag.from_px) * perPixel_s
      write(edge, (unit_s) => {
        const fine = handy((DRAG_px * perPixel_s) / unit_s)
        const grain = Math.min(fine, handy((COARSEST_SHARE * duration_s) / unit_s))
        return inGrains(next_s / unit_s, grain) * unit_s
      })
    },
    onUp: () => setDrag(null),
    onKey(edge, event) {
      const { duration_s } = steps[edge].step
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: PAGE, PageDown: -PAGE }[
        event.key
      ]
      if (by === undefined || event.altKey || event.ctrlKey || event.metaKey) return
      event.preventDefault()
      write(edge, (unit_s) => {
        const grain = handy((KEY_SHARE * duration_s) / unit_s)
        return inGrains(duration_s / unit_s + by * grain, grain) * unit_s
      })
    },
  }
}
