/** The wave as drawn: current over time, each step named where there is room. */
import type { ScaleLinear } from 'd3-scale'
import { AxisX, AxisY, type Frame } from '../figure/axes.tsx'
import type { Placed } from '../figure/label-rows.ts'
import { quantityShown } from '../look/shown.ts'
import type { WavePart, WaveStep } from './wave-parts.ts'
import { currentScale, decades, REST_px, type TimeAxis } from './wave-scale.ts'
import { tickWords } from './wave-words.ts'

export interface WaveDrawingProps {
  readonly steps: readonly WaveStep[]
  readonly rest_A: number
  readonly frame: Frame
  readonly x: ScaleLinear<number, number>
  readonly axis: TimeAxis
  readonly names: readonly Placed[]
  readonly read: WavePart | null
}

export const NAME_ROW_px = 16

export function WaveDrawing({ steps, rest_A, frame, x, axis, names, read }: WaveDrawingProps) {
  const parts = steps.flatMap((step) => step.parts)
  const y = currentScale([rest_A, ...parts.map(({ current_A }) => current_A)], frame)
  const base = frame.height - frame.bottom
  const level = (current_A: number) => (current_A > 0 ? y(current_A) : base)
  const end = x(steps.at(-1)?.to_s ?? 0)
  const wave = parts.map((part) => `V${level(part.current_A)}H${x(part.to_s)}`).join('')
  const rest = level(rest_A)
  const line = `M${frame.left},${rest}H${x(0)}${wave}V${rest}H${end + REST_px}`
  return (
    <svg viewBox={`0 0 ${frame.width} ${frame.height}`} height={frame.height} aria-hidden="true">
      <AxisY
        frame={frame}
        scale={y}
        label="current"
        ticks={decades(y)}
        format={(current_A) => quantityShown(current_A, 'current', { digits: 1 })}
      />
      <path className="wash-wide" d={`${line}V${base}H${frame.left}Z`} />
      {read !== null && (
        <rect
          className="wash-accent"
          x={x(read.from_s)}
          width={Math.max(2, x(read.to_s) - x(read.from_s))}
          y={level(read.current_A)}
          height={Math.max(0, base - level(read.current_A))}
        />
      )}
      <path className="pen" d={line} />
      {names.map(({ index, text, left, x: at, row }) => {
        const foot = frame.top - 6 - NAME_ROW_px * row
        return (
          <g key={index}>
            <line className="leader" x1={at} x2={at} y1={foot + 4} y2={topOf(steps[index], level)} />
            <text x={left} y={foot}>
              {text}
            </text>
          </g>
        )
      })}
      <text className="faint" x={frame.left + 2} y={rest - 5}>
        rest
      </text>
      <AxisX
        frame={frame}
        scale={x}
        label={`${axis.words} since the wake began`}
        ticks={axis.ticks}
        format={(value) => tickWords(value, axis.unit_s)}
      />
    </svg>
  )
}

/** Where the leader of a step's name ends: above its main part. */
function topOf({ parts }: WaveStep, level: (current_A: number) => number): number {
  const main = parts.find(({ isPeak }) => !isPeak) ?? parts[0]
  return level(main.current_A) - 3
}
