/** Axes as a pen would draw them: a base line, ticks that matter, names in words. Scales are d3-scale's. */
import type { ScaleContinuousNumeric } from 'd3-scale'

export interface Frame {
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

export interface AxisProps {
  readonly frame: Frame
  readonly scale: ScaleContinuousNumeric<number, number>
  readonly label: string
  /** In the units of the scale. */
  readonly ticks: readonly number[]
  readonly format: (value: number) => string
}

export function AxisX({ frame, scale, label, ticks, format }: AxisProps) {
  const y = frame.height - frame.bottom
  return (
    <g className="axis">
      <line x1={frame.left} x2={frame.width - frame.right} y1={y} y2={y} className="axis-line" />
      {ticks.map((tick) => (
        <g key={tick} transform={`translate(${scale(tick)},${y})`}>
          <line y2={4} className="axis-line" />
          <text y={17} textAnchor="middle">
            {format(tick)}
          </text>
        </g>
      ))}
      <text x={frame.width - frame.right} y={frame.height - 4} textAnchor="end" className="axis-name">
        {label}
      </text>
    </g>
  )
}

export function AxisY({ frame, scale, label, ticks, format }: AxisProps) {
  return (
    <g className="axis">
      {ticks.map((tick) => (
        <g key={tick} transform={`translate(${frame.left},${scale(tick)})`}>
          <line x2={frame.width - frame.left - frame.right} className="axis-rule" />
          <text x={-8} dy="0.32em" textAnchor="end">
            {format(tick)}
          </text>
        </g>
      ))}
      <text x={4} y={12} className="axis-name">
        {label}
      </text>
    </g>
  )
}
