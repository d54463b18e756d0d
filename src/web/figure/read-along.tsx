/** A drawing that is read out part by part: by pointing at it, and by the arrow keys once it has the focus. */
import { type KeyboardEvent, type PointerEvent, type ReactNode, useState } from 'react'

export interface ReadAlongProps {
  /** What is read, for assistive technology. */
  readonly label: string
  readonly count: number
  readonly wordsOf: (index: number) => string
  /** The part at `x`, in the units that the drawing is drawn in; `width` is the whole. */
  readonly indexAt: (x: number) => number
  readonly width: number
  /** Parts that Page Up and Page Down leave behind. */
  readonly page?: number
  /** The drawing, given the part that is being read. */
  readonly children: (read: number | null) => ReactNode
}

export function ReadAlong({ label, count, wordsOf, indexAt, width, page = 10, children }: ReadAlongProps) {
  const [asked, setAsked] = useState<number | null>(null)
  const last = Math.max(0, count - 1)
  const read = asked === null || count === 0 ? null : Math.min(asked, last)
  const onPointer = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect()
    setAsked(indexAt(((event.clientX - box.left) * width) / box.width))
  }
  const onKey = (event: KeyboardEvent) => {
    const step = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageUp: page, PageDown: -page }[
      event.key
    ]
    const end = { Home: 0, End: last }[event.key]
    if (step === undefined && end === undefined) return
    event.preventDefault()
    setAsked(end ?? (read === null ? 0 : Math.max(0, Math.min(last, read + (step ?? 0)))))
  }
  const words = read === null ? null : wordsOf(read)
  return (
    <>
      <div
        className="read-along"
        role="slider"
        tabIndex={0}
        aria-label={label}
        aria-valuemin={0}
        aria-valuemax={last}
        aria-valuenow={read ?? 0}
        aria-valuetext={words ?? 'Nothing read out yet: use the arrow keys.'}
        onPointerMove={onPointer}
        onPointerLeave={() => setAsked(null)}
        onKeyDown={onKey}
        onBlur={() => setAsked(null)}
      >
        {children(read)}
      </div>
      <p className="readout">
        {words ?? 'Point at the drawing, or focus it and use the arrow keys, to read it.'}
      </p>
    </>
  )
}
