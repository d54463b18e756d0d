/** At which currents the time passes, and at which the charge flows. */
import { scaleLinear, scaleLog } from 'd3-scale'
import type { SpanAnswer } from '../../api/bench.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { AxisX, AxisY } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { useWidth } from '../figure/use-width.ts'
import { localised, shareShown } from '../look/shown.ts'

export interface HistogramFigureProps {
  readonly span: SpanAnswer
  /** `note 2`, `what is in sight` */
  readonly of: string
}

const HEIGHT = 220
const MARGIN = { left: 52, right: 16, top: 26, bottom: 42 }

const amount = (current_A: number, digits = 3) => localised(formatQuantity(current_A, 'current', { digits }))

export function HistogramFigure({ span, of }: HistogramFigureProps) {
  const [box, width] = useWidth()
  const { edges_A, duration_s, charge_C, notAbove_s } = span.histogram
  if (edges_A.length === 0) return null
  const all_s = duration_s.reduce((sum, each) => sum + each, notAbove_s)
  const all_C = charge_C.reduce((sum, each) => sum + each, 0)
  const time = duration_s.map((each) => each / all_s)
  const charge = charge_C.map((each) => each / all_C)
  const frame = { width, height: HEIGHT, ...MARGIN }
  const x = scaleLog([edges_A[0], edges_A[edges_A.length - 1]], [frame.left, width - frame.right])
  const y = scaleLinear([0, Math.max(...time, ...charge)], [HEIGHT - frame.bottom, frame.top]).nice(4)
  const ticks = ticksOf(edges_A[0], edges_A[edges_A.length - 1], Math.max(Math.floor(width / 80), 2))
  const [most, dearest] = [time, charge].map((shares) => shares.indexOf(Math.max(...shares)))
  // Above its step, or beside it where time stands there already; never beyond the drawing.
  const isShared = most === dearest
  const isAtEnd = x(edges_A[dearest + 1]) > width - 70
  const chargeLabel = {
    x: x(edges_A[isShared && isAtEnd ? dearest : dearest + 1]) + (isShared ? (isAtEnd ? -6 : 6) : 0),
    y: y(charge[dearest]) + (isShared ? 12 : -6),
    textAnchor: isShared && !isAtEnd ? ('start' as const) : ('end' as const),
  }
  const bin = (k: number) => `${amount(edges_A[k], 2)} to ${amount(edges_A[k + 1], 2)}`
  const [low, median, high] = span.quantiles_A
  return (
    <FigureFrame
      name="current-histogram"
      title="Where time and charge go"
      caption={
        <>
          Of {of}: {shareShown(time[most])} of the time at {bin(most)}, and {shareShown(charge[dearest])} of
          the charge at {bin(dearest)} (the line).{' '}
          {low !== null &&
            median !== null &&
            high !== null &&
            `5 % of the time below ${amount(low)}, half below ${amount(median)}, 95 % below ${amount(high)}.`}
          {notAbove_s > 0 &&
            ` ${shareShown(notAbove_s / all_s)} of the time at zero or below, which a logarithmic axis has no place for.`}
        </>
      }
      table={{
        head: ['from (A)', 'to (A)', 'time (s)', 'charge (C)'],
        rows: duration_s.flatMap((seconds, k) =>
          seconds === 0
            ? []
            : [
                [edges_A[k], edges_A[k + 1], seconds, charge_C[k]].map((value) =>
                  Number(value.toPrecision(6)),
                ),
              ],
        ),
      }}
    >
      <div ref={box}>
        <svg
          viewBox={`0 0 ${width} ${HEIGHT}`}
          role="img"
          aria-label={`Share of time and of charge by current, of ${of}`}
        >
          <AxisY
            frame={frame}
            scale={y}
            label="share"
            ticks={y.ticks(4)}
            format={(share) => shareShown(share, 2)}
          />
          {time.map((share, k) => (
            <rect
              key={edges_A[k]}
              x={x(edges_A[k])}
              width={Math.max(x(edges_A[k + 1]) - x(edges_A[k]) - 1, 1)}
              y={y(share)}
              height={y(0) - y(share)}
              className="wash"
            />
          ))}
          <path d={stairs(edges_A.map(x), charge.map(y), y(0))} className="pen-accent" />
          <AxisX
            frame={frame}
            scale={x}
            label="current"
            ticks={ticks}
            format={(current_A) => amount(current_A, 1)}
          />
          <text x={x(edges_A[most])} y={y(time[most]) - 6}>
            time
          </text>
          <text {...chargeLabel} className="ink-accent">
            charge
          </text>
        </svg>
      </div>
    </FigureFrame>
  )
}

/** Powers of ten, or within two of them also twice and five times each; as many as there is room for. */
function ticksOf(low: number, high: number, most: number): number[] {
  const steps = high / low < 100 ? [1, 2, 5] : [1]
  const ticks: number[] = []
  for (let power = Math.floor(Math.log10(low)); power <= Math.log10(high); power++)
    ticks.push(...steps.map((step) => step * 10 ** power).filter((tick) => tick >= low && tick <= high))
  const every = Math.ceil(ticks.length / most)
  return ticks.filter((_, k) => k % every === 0)
}

function stairs(edges: readonly number[], heights: readonly number[], foot: number): string {
  const steps = heights.map((height, k) => `V${height}H${edges[k + 1]}`)
  return `M${edges[0]} ${foot}${steps.join('')}V${foot}`
}
