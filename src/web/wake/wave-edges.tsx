/** What the wave is dragged by: one handle at the end of each step, over the drawing and no part of what is saved. */
import type { ScaleLinear } from 'd3-scale'
import type { PointerEvent } from 'react'
import type { Frame } from '../figure/axes.tsx'
import { quantityShown } from '../look/shown.ts'
import type { EdgeDrag } from './use-edge-drag.ts'
import type { WaveStep } from './wave-parts.ts'

const GRIP_px = 5
const REACH_px = 12
/** As far as a step can be dragged with the keys alone. */
const LONGEST = 1000

export interface WaveEdgesProps {
  readonly steps: readonly WaveStep[]
  readonly frame: Frame
  readonly x: ScaleLinear<number, number>
  readonly edgeDrag: EdgeDrag
}

export function WaveEdges({ steps, frame, x, edgeDrag }: WaveEdgesProps) {
  const base = frame.height - frame.bottom
  /** Of edges that lie close together, that which the pointer is nearest to. */
  const nearest = (event: PointerEvent<Element>): number => {
    const box = event.currentTarget.closest('svg')?.getBoundingClientRect()
    const at = event.clientX - (box?.left ?? 0)
    const away = steps.map(({ to_s }) => Math.abs(x(to_s) - at))
    return away.lastIndexOf(Math.min(...away))
  }
  return (
    <svg className="wave-edges" viewBox={`0 0 ${frame.width} ${frame.height}`} height={frame.height}>
      <title>Ends of the steps, to be dragged</title>
      {steps.map(({ list, index, step, to_s }, edge) => (
        <g
          key={`${list} ${index}`}
          className="handle"
          role="slider"
          tabIndex={0}
          aria-label={`End of ${step.name}`}
          aria-orientation="horizontal"
          aria-valuemin={0}
          aria-valuemax={LONGEST * step.duration_s}
          aria-valuenow={step.duration_s}
          aria-valuetext={`${step.name} lasts ${quantityShown(step.duration_s, 'duration', { digits: 3 })}`}
          data-dragged={edgeDrag.drag?.edge === edge}
          transform={`translate(${x(to_s)},0)`}
          onPointerDown={(event) => edgeDrag.onDown(nearest(event), event)}
          onPointerMove={edgeDrag.onMove}
          onPointerUp={edgeDrag.onUp}
          onPointerCancel={edgeDrag.onUp}
          onKeyDown={(event) => edgeDrag.onKey(edge, event)}
        >
          <rect className="reach" x={-3} width={6} y={frame.top} height={base - frame.top} />
          <rect
            className="reach"
            x={-REACH_px}
            width={2 * REACH_px}
            y={base - REACH_px}
            height={2 * REACH_px}
          />
          <line y1={frame.top} y2={base} />
          <path
            d={`M0,${base - GRIP_px}l${GRIP_px},${GRIP_px}l-${GRIP_px},${GRIP_px}l-${GRIP_px},-${GRIP_px}z`}
          />
        </g>
      ))}
    </svg>
  )
}
