/** Charge left as a fan of bands over time, with a reading line that mouse and keys move. */
import { scaleLinear } from 'd3-scale'
import { area, line } from 'd3-shape'
import { type KeyboardEvent, type PointerEvent, type ReactNode, useState } from 'react'
import type { StateBand } from '../../outlook/outlook.ts'
import { AxisY, type Frame } from '../figure/axes.tsx'
import { shareShown } from '../look/shown.ts'

export interface FanPoint extends StateBand {
  readonly x: number
}

export interface FanProps {
  readonly points: readonly FanPoint[]
  readonly frame: Frame
  readonly domain: readonly [number, number]
  /** What a point is called in words: a date, an age. */
  readonly nameOf: (point: FanPoint) => string
  /** Said to assistive technology in front of what is read out. */
  readonly label: string
  /** Drawn below the fan and above it; `x` and `y` are its scales. */
  readonly under?: (x: (value: number) => number, y: (share: number) => number) => ReactNode
  readonly over?: (x: (value: number) => number, y: (share: number) => number) => ReactNode
}

export function Fan({ points, frame, domain, nameOf, label, under, over }: FanProps) {
  const [read, setRead] = useState<number | null>(null)
  const x = scaleLinear(domain, [frame.left, frame.width - frame.right])
  const y = scaleLinear([0, 1], [frame.height - frame.bottom, frame.top])
  const band = (low: 'p5' | 'p25', high: 'p75' | 'p95') =>
    area<FanPoint>(
      (p) => x(p.x),
      (p) => y(p[low]),
      (p) => y(p[high]),
    )(points) ?? ''
  const middle = line<FanPoint>(
    (p) => x(p.x),
    (p) => y(p.p50),
  )(points)
  const at = read === null ? null : (points[Math.min(read, points.length - 1)] ?? null)
  const onPointer = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect()
    const wanted = x.invert(((event.clientX - box.left) * frame.width) / box.width)
    setRead(nearest(points, wanted))
  }
  const onKey = (event: KeyboardEvent) => {
    const step = { ArrowLeft: -1, ArrowRight: 1, PageUp: -7, PageDown: 7 }[event.key]
    const end = { Home: 0, End: points.length - 1 }[event.key]
    if (step === undefined && end === undefined) return
    event.preventDefault()
    const from = read ?? Math.floor(points.length / 2)
    setRead(end ?? Math.max(0, Math.min(points.length - 1, from + (step ?? 0))))
  }
  const words = at === null ? null : wordsOf(nameOf(at), at)
  return (
    <>
      <div
        className="read-along"
        role="slider"
        tabIndex={0}
        aria-label={`${label}: read out with the arrow keys`}
        aria-valuemin={0}
        aria-valuemax={Math.max(0, points.length - 1)}
        aria-valuenow={read ?? Math.floor(points.length / 2)}
        aria-valuetext={words ?? 'nothing read out yet'}
        onPointerMove={onPointer}
        onPointerLeave={() => setRead(null)}
        onKeyDown={onKey}
        onBlur={() => setRead(null)}
      >
        <svg viewBox={`0 0 ${frame.width} ${frame.height}`} aria-hidden="true">
          {under?.(x, y)}
          <AxisY
            frame={frame}
            scale={y}
            label="charge left"
            ticks={[0, 0.25, 0.5, 0.75, 1]}
            format={(share) => shareShown(share)}
          />
          <path className="wash-wide" d={band('p5', 'p95')} />
          <path className="wash" d={band('p25', 'p75')} />
          <path className="pen" d={middle ?? ''} />
          {over?.(x, y)}
          {at !== null && (
            <g>
              <line
                className="pen-accent"
                x1={x(at.x)}
                x2={x(at.x)}
                y1={frame.top}
                y2={frame.height - frame.bottom}
              />
              <circle className="ink-accent" cx={x(at.x)} cy={y(at.p50)} r={3.5} />
            </g>
          )}
        </svg>
      </div>
      <p className="readout">
        {words ?? 'Point at the drawing, or focus it and use the arrow keys, to read it.'}
      </p>
    </>
  )
}

const wordsOf = (name: string, { p5, p50, p95 }: StateBand): string =>
  `${name}: ${shareShown(p50)} of charge left in the middle run; nine in ten between ${shareShown(p5)} and ${shareShown(p95)}.`

function nearest(points: readonly FanPoint[], x: number): number {
  let best = 0
  for (const [i, point] of points.entries())
    if (Math.abs(point.x - x) < Math.abs(points[best].x - x)) best = i
  return best
}
