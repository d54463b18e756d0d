/** Curves over one axis, each with its name at its end, levels and posts in words, read out by pointing and by keys. */
import { type ScaleContinuousNumeric, scaleLinear, scaleLog } from 'd3-scale'
import { line } from 'd3-shape'
import { AxisX, AxisY, type Frame } from './axes.tsx'
import { EndName } from './end-name.tsx'
import { type NamedEnd, namesAtEnds } from './end-names.ts'
import { labelRows } from './label-rows.ts'
import { ReadAlong } from './read-along.tsx'

export interface ChartAxis {
  readonly isLog?: boolean
  /** May fall, as charge does from full to empty. */
  readonly domain: readonly [number, number]
  readonly label: string
  readonly format: (value: number) => string
}

export type Pen = 'pen' | 'pen-accent' | 'pen-cool'

export interface ChartLine {
  /** Short pieces, one below the other, written beside its end. */
  readonly name: readonly string[]
  /** Where it is written above the line instead, as far as the curve is flat there: a place of the x axis. */
  readonly nameAt?: number
  readonly pen: Pen
  readonly isDashed?: boolean
  /** Null where there is none. */
  readonly points: readonly (readonly [x: number, y: number | null])[]
}

export interface Level {
  readonly at: number
  readonly text: string
}

/** What stands at a place of the x axis, named above the drawing. */
export interface Post {
  readonly at: number
  readonly text: string
}

export interface Dot {
  readonly x: number
  readonly y: number
  readonly isHollow?: boolean
}

export interface CurveChartProps {
  readonly label: string
  readonly width: number
  readonly height?: number
  readonly x: ChartAxis
  readonly y: ChartAxis
  readonly lines: readonly ChartLine[]
  readonly levels?: readonly Level[]
  readonly posts?: readonly Post[]
  readonly dots?: readonly Dot[]
  /** Places of the x axis that are read out, in order, and what is said there. */
  readonly readings: readonly number[]
  readonly wordsOf: (index: number) => string
}

const POST_ROW_px = 16
const POST_ROWS = 3
const LETTER_px = 6.6
const LEAST_TICK_px = 62

export function CurveChart(props: CurveChartProps) {
  const { label, width, height = 280, lines, levels = [], posts = [], dots = [], readings, wordsOf } = props
  const ending = lines.filter(({ nameAt }) => nameAt === undefined)
  const longest = Math.max(0, ...ending.flatMap(({ name }) => name.map((piece) => piece.length)))
  const side = { left: 50, right: 12 + Math.min(longest * LETTER_px, width / 3), width, height }
  const x = scaleOf(props.x, side.left, width - side.right)
  const placed = labelRows(
    posts.map(({ at, text }) => ({ text, x: x(at), weight: 1 })),
    { left: side.left, right: width, rows: POST_ROWS },
  )
  const rows = Math.max(0, ...placed.map(({ row }) => row + 1))
  const frame: Frame = { ...side, top: 24 + rows * POST_ROW_px, bottom: 42 }
  const y = scaleOf(props.y, height - frame.bottom, frame.top)
  const path = line<readonly [number, number | null]>(
    ([at]) => x(at),
    ([, value]) => y(value ?? 0),
  ).defined(([, value]) => value !== null)
  const ends = ending.map(({ name, pen, points }): NamedEnd & { x: number; pen: Pen } => {
    const last = points.findLast(([, value]) => value !== null)
    return { name, pen, x: x(last?.[0] ?? props.x.domain[1]), y: y(last?.[1] ?? props.y.domain[0]) }
  })
  const names = namesAtEnds(ends, frame.top, height - frame.bottom)
  return (
    <ReadAlong
      label={label}
      count={readings.length}
      wordsOf={wordsOf}
      indexAt={(at) => nearest(readings, (value) => Math.abs(x(value) - at))}
      width={width}
    >
      {(read) => (
        <svg viewBox={`0 0 ${width} ${height}`} height={height} aria-hidden="true">
          <AxisY
            frame={frame}
            scale={y}
            label={props.y.label}
            ticks={ticksOf(props.y, y, 45)}
            format={props.y.format}
          />
          <AxisX
            frame={frame}
            scale={x}
            label={props.x.label}
            ticks={ticksOf(props.x, x, LEAST_TICK_px)}
            format={props.x.format}
          />
          {levels.map(({ at, text }, i) => (
            <g key={text}>
              <line className="level" x1={frame.left} x2={width - frame.right} y1={y(at)} y2={y(at)} />
              <text className="level-name" x={frame.left + 4} y={y(at) + (isCrowded(levels, i, y) ? 14 : -4)}>
                {text}
              </text>
            </g>
          ))}
          {placed.map(({ index, text, left, x: at, row }) => (
            <g key={index}>
              <line
                className="leader"
                x1={at}
                x2={at}
                y1={frame.top - 4 - row * POST_ROW_px}
                y2={height - frame.bottom}
              />
              <text x={left} y={frame.top - 7 - row * POST_ROW_px}>
                {text}
              </text>
            </g>
          ))}
          {lines.map(({ name, pen, isDashed, points }) => (
            <path
              key={name.join(' ')}
              className={`${pen}${isDashed ? ' dashed' : ''}`}
              d={path(points) ?? ''}
            />
          ))}
          {names.map(({ name, at_px }, i) => (
            <EndName key={name.join(' ')} end={ends[i]} at_px={at_px} left={width - frame.right + 8} />
          ))}
          {lines.map(({ name, pen, nameAt, points }) => {
            if (nameAt === undefined) return null
            const near =
              points[
                nearest(
                  points.map(([at]) => at),
                  (at) => Math.abs(at - nameAt),
                )
              ]
            return (
              <text key={name.join(' ')} className={`name-of-${pen}`} x={x(nameAt)} y={y(near[1] ?? 0) - 6}>
                {name.join(' ')}
              </text>
            )
          })}
          {dots.map((dot) => (
            <circle
              key={`${dot.x} ${dot.y}`}
              className={dot.isHollow ? 'dot is-hollow' : 'dot'}
              cx={x(dot.x)}
              cy={y(dot.y)}
              r={4}
            />
          ))}
          {read !== null && (
            <line
              className="reading-line"
              x1={x(readings[read])}
              x2={x(readings[read])}
              y1={frame.top}
              y2={height - frame.bottom}
            />
          )}
        </svg>
      )}
    </ReadAlong>
  )
}

function scaleOf(
  { isLog, domain }: ChartAxis,
  from: number,
  to: number,
): ScaleContinuousNumeric<number, number> {
  return isLog ? scaleLog(domain, [from, to]) : scaleLinear(domain, [from, to])
}

/** As many as stand `apart_px` from each other; powers of ten on a logarithmic axis. */
function ticksOf(axis: ChartAxis, scale: ScaleContinuousNumeric<number, number>, apart_px: number): number[] {
  const [from, to] = scale.range()
  const most = Math.max(2, Math.abs(to - from) / apart_px)
  if (!axis.isLog) return scale.ticks(most)
  const [low, high] = [Math.min(...axis.domain), Math.max(...axis.domain)].map(Math.log10)
  const step = Math.max(1, Math.ceil((high - low) / most))
  const powers: number[] = []
  for (let power = Math.ceil(low - 1e-9); power <= high + 1e-9; power += step)
    powers.push(Number(`1e${power}`))
  return powers
}

/** The name of a level goes below its line where another lies just above. */
function isCrowded(levels: readonly Level[], index: number, y: (value: number) => number): boolean {
  const own = y(levels[index].at)
  return levels.some(
    ({ at }, i) => i !== index && y(at) <= own && own - y(at) < 16 && (y(at) < own || i < index),
  )
}

function nearest(values: readonly number[], away: (value: number) => number): number {
  let found = 0
  for (const [i, value] of values.entries()) if (away(value) < away(values[found])) found = i
  return found
}
