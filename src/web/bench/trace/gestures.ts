/** Mouse, pen, touch and wheel on the trace: dragging moves it or marks a stretch, two fingers and the wheel zoom. */
import type { TraceDesk } from './desk.ts'
import { plotWidth, timeAt } from './layout.ts'
import { panned, type Window, zoomed } from './window.ts'

export interface Gestures {
  /** Dragging marks, without Shift as well. */
  readonly marks: () => boolean
  readonly onMarking: (span: Window) => void
  /** The stretch is what it was last told to be; one that has no width is none. */
  readonly onMarked: (span: Window | null) => void
  /** Null where the pointer left. */
  readonly onPoint: (x: number | null) => void
}

const WHEEL_STEP = 0.0018
const LINE_PX = 16
const NEARER = 1 / 3
/** Shorter drags are clicks. */
const SLACK_PX = 3

interface Finger {
  readonly x: number
}

/** Returns what takes them off again. */
export function takeGestures(field: HTMLElement, desk: TraceDesk, gestures: Gestures): () => void {
  const fingers = new Map<number, Finger>()
  let marking: { readonly from_s: number; readonly x: number } | null = null
  const placeOf = (event: MouseEvent) => event.clientX - field.getBoundingClientRect().left
  const shareOf = (x: number) => (x - desk.layout.left) / plotWidth(desk.layout)
  const timeOf = (x: number) => {
    const { from_s, to_s } = desk.window
    return Math.min(Math.max(timeAt(desk.layout, desk.window, x), from_s), to_s)
  }

  const begin = (event: PointerEvent) => {
    if (event.button !== 0) return
    const x = placeOf(event)
    field.setPointerCapture(event.pointerId)
    fingers.set(event.pointerId, { x })
    const isFirst = fingers.size === 1
    marking = isFirst && (event.shiftKey || gestures.marks()) ? { from_s: timeOf(x), x } : null
  }

  const move = (event: PointerEvent) => {
    const x = placeOf(event)
    const before = fingers.get(event.pointerId)
    if (before === undefined) return gestures.onPoint(x)
    if (marking !== null) gestures.onMarking(spanTo(x))
    else if (fingers.size === 1)
      desk.move(panned(desk.window, (before.x - x) / plotWidth(desk.layout), desk.limits))
    else if (fingers.size === 2) pinch(event.pointerId, before.x, x)
    fingers.set(event.pointerId, { x })
  }

  /** What lies under both fingers stays there. */
  const pinch = (id: number, before: number, now: number) => {
    const [other] = [...fingers].filter(([each]) => each !== id)
    const still = other[1].x
    if (Math.abs(now - still) < 1 || Math.abs(before - still) < 1) return
    const factor = Math.abs((before - still) / (now - still))
    desk.move(zoomed(desk.window, factor, shareOf(still), desk.limits))
  }

  const spanTo = (x: number): Window => {
    const [from_s, to_s] = [marking?.from_s ?? 0, timeOf(x)].sort((a, b) => a - b)
    return { from_s, to_s }
  }

  const end = (event: PointerEvent) => {
    const x = placeOf(event)
    if (marking !== null && fingers.has(event.pointerId))
      gestures.onMarked(Math.abs(x - marking.x) < SLACK_PX ? null : spanTo(x))
    marking = null
    fingers.delete(event.pointerId)
  }

  const turn = (event: WheelEvent) => {
    const scale = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? LINE_PX : 1
    const [dx, dy] = [event.deltaX * scale, event.deltaY * scale]
    const isSideways = Math.abs(dx) > Math.abs(dy) || event.shiftKey
    // Up and down goes on scrolling the page until the trace is chosen; a pinch comes with Ctrl.
    if (!isSideways && !event.ctrlKey && document.activeElement !== field) return
    event.preventDefault()
    if (isSideways) desk.move(panned(desk.window, (dx || dy) / plotWidth(desk.layout), desk.limits))
    else {
      const at = Math.min(Math.max(shareOf(placeOf(event)), 0), 1)
      desk.move(zoomed(desk.window, Math.exp(dy * WHEEL_STEP * (event.ctrlKey ? 4 : 1)), at, desk.limits))
    }
  }

  const double = (event: MouseEvent) =>
    desk.move(zoomed(desk.window, event.shiftKey ? 1 / NEARER : NEARER, shareOf(placeOf(event)), desk.limits))
  const leave = () => gestures.onPoint(null)

  const stop = new AbortController()
  const { signal } = stop
  field.addEventListener('pointerdown', begin, { signal })
  field.addEventListener('pointermove', move, { signal })
  field.addEventListener('pointerup', end, { signal })
  field.addEventListener('pointercancel', end, { signal })
  field.addEventListener('pointerleave', leave, { signal })
  field.addEventListener('wheel', turn, { signal, passive: false })
  field.addEventListener('dblclick', double, { signal })
  return () => stop.abort()
}
