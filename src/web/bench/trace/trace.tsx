/** The trace at any zoom: a canvas that follows hand and keys sixty times a second, and over it what can be taken hold of. */
import { type KeyboardEvent, type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react'
import { useWidth } from '../../figure/use-width.ts'
import { type Shown, TraceDesk } from './desk.ts'
import { EdgeHandles } from './edge-handles.tsx'
import { takeGestures } from './gestures.ts'
import { windowAfterKey } from './keys.ts'
import { type Layout, layoutFor, plotWidth, xOf } from './layout.ts'
import { currentsShown, placeShown } from './read-out.ts'
import type { Source } from './tiles.ts'
import type { Window } from './window.ts'

export interface TraceProps extends Omit<Shown, 'width' | 'hasMiddle'> {
  readonly source: Source
  /** Where it begins; null for the whole. */
  readonly window: Window | null
  readonly label: string
  readonly marks: boolean
  readonly deskRef: RefObject<TraceDesk | null>
  readonly onSettled: (window: Window) => void
  readonly onFilled: () => void
  readonly onRefusal: (why: string) => void
  /** A stretch under way, and one that was dragged to its end; null where it was none. */
  readonly onMarking: (span: Window) => void
  readonly onMarked: (span: Window | null) => void
  readonly onEdge: (note: number, span: Window) => void
  /** The middle of what is in sight is to be noted. */
  readonly onMark: () => void
  readonly onRemove: (note: number) => void
}

export function Trace(props: TraceProps) {
  const { source, window, label, deskRef, scale, fits, extent, states, bands, notes, chosen } = props
  const [box, width] = useWidth()
  const canvas = useRef<HTMLCanvasElement>(null)
  const field = useRef<HTMLDivElement>(null)
  const readOut = useRef<HTMLParagraphElement>(null)
  const handles = useRef<HTMLDivElement>(null)
  const latest = useRef(props)
  latest.current = props
  const [isByKeys, setByKeys] = useState(false)
  const [said, setSaid] = useState('')
  const pointed = useRef<number | null>(null)

  // biome-ignore lint/correctness/useExhaustiveDependencies: what it shows is told by the effect below
  useLayoutEffect(() => {
    if (canvas.current === null || field.current === null) return
    const { scale, fits, extent, states, bands, notes, chosen } = latest.current
    const shown = { width, scale, fits, extent, states, bands, notes, chosen, hasMiddle: false }
    const whole = { from_s: 0, to_s: source.grid.duration_s }
    const desk = new TraceDesk(canvas.current, source, shown, latest.current.window ?? whole, {
      onSettled: (now) => latest.current.onSettled(now),
      onFilled: () => latest.current.onFilled(),
      onRefusal: (why) => latest.current.onRefusal(why),
      onDrawn: (now, layout) => {
        placeHandles(handles.current, latest.current.notes, now, layout)
        showReadOut()
      },
    })
    const showReadOut = () => {
      if (readOut.current === null) return
      const x = pointed.current
      const read = x === null ? null : desk.readAt(x)
      readOut.current.textContent =
        read === null ? '' : `${placeShown(read.time_s, desk.window)}: ${currentsShown(read)}`
    }
    deskRef.current = desk
    const letGo = takeGestures(field.current, desk, {
      marks: () => latest.current.marks,
      onMarking: (span) => latest.current.onMarking(span),
      onMarked: (span) => latest.current.onMarked(span),
      onPoint: (x) => {
        pointed.current = x
        showReadOut()
      },
    })
    const stopWatching = watchColours(() => desk.recolour())
    return () => {
      letGo()
      stopWatching()
      desk.close()
      deskRef.current = null
    }
  }, [source, deskRef])

  useEffect(() => {
    const desk = deskRef.current
    desk?.show({ width, scale, fits, extent, states, bands, notes, chosen, hasMiddle: isByKeys })
  }, [deskRef, width, scale, fits, extent, states, bands, notes, chosen, isByKeys])

  // A link, or the way back, leads to another window; one that the desk came to by itself is the same.
  useEffect(() => {
    const desk = deskRef.current
    if (desk === null) return
    const wanted = window ?? { from_s: 0, to_s: source.grid.duration_s }
    const near = 1e-9 * (wanted.to_s - wanted.from_s)
    const { from_s, to_s } = desk.window
    if (Math.abs(from_s - wanted.from_s) > near || Math.abs(to_s - wanted.to_s) > near) desk.move(wanted)
  }, [window, source, deskRef])

  const onKey = (event: KeyboardEvent) => {
    const desk = deskRef.current
    if (desk === null || event.ctrlKey || event.metaKey || event.altKey) return
    setByKeys(true)
    if (event.key === 'Enter') {
      event.preventDefault()
      return props.onMark()
    }
    const pixel = 1 / plotWidth(desk.layout)
    const next = windowAfterKey(event.key, event.shiftKey, desk.window, desk.limits, pixel)
    if (next === null) return
    event.preventDefault()
    desk.move(next)
    const { left } = desk.layout
    pointed.current = left + plotWidth(desk.layout) / 2
    const read = desk.readAt(pointed.current)
    const sight = `in sight ${placeShown(desk.window.from_s, desk.window)} to ${placeShown(desk.window.to_s, desk.window)}`
    setSaid(
      read === null ? sight : `${placeShown(read.time_s, desk.window)}: ${currentsShown(read)}; ${sight}`,
    )
  }

  const layout = layoutFor(width, states.length)
  return (
    <div className="trace" ref={box}>
      <p className="trace-read-out" ref={readOut} aria-hidden="true" />
      <div className="trace-drawing">
        <canvas ref={canvas} />
        <div
          ref={field}
          className={`trace-field ${props.marks ? 'marks' : ''}`}
          role="application"
          aria-roledescription="trace"
          aria-label={label}
          aria-describedby="trace-keys"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it is moved by keys
          tabIndex={0}
          onKeyDown={onKey}
          onBlur={() => setByKeys(false)}
        />
        <div ref={handles}>
          <EdgeHandles
            notes={notes}
            chosen={chosen}
            layout={layout}
            windowNow={() => deskRef.current?.window ?? null}
            onEdge={props.onEdge}
            onRemove={props.onRemove}
          />
        </div>
      </div>
      <p className="for-ears" role="status">
        {said}
      </p>
    </div>
  )
}

/** Handles follow the drawing in the same frame. */
function placeHandles(
  box: HTMLElement | null,
  notes: readonly Window[],
  window: Window,
  layout: Layout,
): void {
  for (const handle of box?.querySelectorAll<HTMLElement>('.edge') ?? []) {
    const note = notes[Number(handle.dataset.note)]
    if (note === undefined) continue
    const x = xOf(layout, window, handle.dataset.end === 'from' ? note.from_s : note.to_s)
    const isInSight = x >= layout.left - 1 && x <= layout.width - layout.right + 1
    handle.style.transform = `translateX(${x}px)`
    handle.hidden = !isInSight
  }
}

/** Light and dark, screen and paper. */
function watchColours(onChange: () => void): () => void {
  const queries = ['(prefers-color-scheme: dark)', 'print'].map((query) => matchMedia(query))
  for (const query of queries) query.addEventListener('change', onChange)
  return () => {
    for (const query of queries) query.removeEventListener('change', onChange)
  }
}
