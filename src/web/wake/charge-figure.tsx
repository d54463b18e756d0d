/** Where a day's charge goes, as one long bar: its parts named above it, what is not known of each as a whisker below. */
import { scaleLinear } from 'd3-scale'
import type { BudgetPart } from '../../outlook/outlook.ts'
import { inUnit } from '../../quantity/format.ts'
import { formatMeasured } from '../../quantity/measured.ts'
import { fromBase, type Unit } from '../../quantity/unit.ts'
import { dayUnit } from '../../report/day-unit.ts'
import { AxisX, type Frame } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { labelRows } from '../figure/label-rows.ts'
import { ReadAlong } from '../figure/read-along.tsx'
import { useWidth } from '../figure/use-width.ts'
import { localised, numberShown, shareShown } from '../look/shown.ts'
import { type LaidPart, laidOut, lanesOf } from './charge-bar.ts'

const ROWS = 3
const ROW_px = 16
const BAR_px = 46
const LANE_px = 8
const LEAST_WHISKER_px = 3
const AXIS_px = 40

export function ChargeFigure({ budget }: { readonly budget: readonly BudgetPart[] }) {
  const [ref, width] = useWidth()
  const parts = laidOut(budget)
  const total_C = parts.at(-1)?.to_C ?? 0
  if (total_C === 0) return <p className="waiting">This design takes no charge at all.</p>
  const unit = dayUnit(total_C)
  const [first] = parts
  return (
    <FigureFrame
      name="charge-of-a-day"
      title="Where a day's charge goes"
      caption={`The cell gives ${localised(inUnit(total_C, unit, 3))} a day; ${first.name} takes ${shareShown(first.share)} of it. The whisker below a part is the tolerance of that part alone, twice its standard uncertainty to either side, as it follows from the tolerances in the file.`}
      table={{
        head: ['part', 'kind', `charge a day (${unit.symbol})`, `± (${unit.symbol})`, 'share (%)'],
        rows: parts.map((part) => [
          part.name,
          part.kind,
          plain(fromBase(part.charge_C, unit)),
          plain(fromBase(part.expanded_C, unit)),
          plain(100 * part.share),
        ]),
      }}
    >
      <div ref={ref}>
        <Bar parts={parts} unit={unit} width={width} />
      </div>
    </FigureFrame>
  )
}

interface BarProps {
  readonly parts: readonly LaidPart[]
  readonly unit: Unit
  readonly width: number
}

function Bar({ parts, unit, width }: BarProps) {
  const total_C = parts.at(-1)?.to_C ?? 0
  const wanted = parts.map(({ name, from_C, to_C, share }) => ({ text: name, from_C, to_C, weight: share }))
  // As far as the last whisker reaches, so that none leaves the drawing.
  const reach_C = Math.max(total_C, ...parts.map(({ to_C, expanded_C }) => to_C + expanded_C))
  const x = scaleLinear([0, reach_C], [2, width - 2])
  const names = labelRows(
    wanted.map((each) => ({ ...each, x: (x(each.from_C) + x(each.to_C)) / 2 })),
    { left: 2, right: width - 2, rows: ROWS },
  )
  const rows = Math.max(1, ...names.map(({ row }) => row + 1))
  const whiskers = whiskersOf(parts, x)
  const top = rows * ROW_px + 8
  const lanes = Math.max(0, ...whiskers.map(({ lane }) => lane + 1))
  const base = top + BAR_px + LANE_px * (lanes + 0.5)
  const frame: Frame = { width, height: base + AXIS_px, left: 2, right: 2, top, bottom: AXIS_px }
  const inUnits = scaleLinear([0, fromBase(reach_C, unit)], x.range())
  return (
    <ReadAlong
      label="Parts of a day's charge, read out"
      count={parts.length}
      wordsOf={(index) => partWords(parts[index], unit)}
      indexAt={(at) => {
        const found = parts.findIndex(({ to_C }) => x.invert(at) < to_C)
        return found < 0 ? parts.length - 1 : found
      }}
      width={width}
    >
      {(read) => (
        <svg viewBox={`0 0 ${width} ${frame.height}`} height={frame.height} aria-hidden="true">
          {parts.map(({ from_C, to_C, share, name, kind }, i) => (
            <g key={`${kind} ${name} ${from_C}`}>
              <rect
                className={`charge-piece ${i === read ? 'is-read' : i % 2 === 0 ? 'wash' : 'wash-wide'}`}
                x={x(from_C)}
                width={Math.max(0.75, x(to_C) - x(from_C))}
                y={top}
                height={BAR_px}
              />
              {x(to_C) - x(from_C) > 50 && (
                <text x={(x(from_C) + x(to_C)) / 2} y={top + BAR_px / 2} dy="0.34em" textAnchor="middle">
                  {shareShown(share)}
                </text>
              )}
            </g>
          ))}
          {names.map(({ index, text, left, x: at, row }) => (
            <g key={index}>
              <line className="leader" x1={at} x2={at} y1={top - 4 - row * ROW_px} y2={top} />
              <text x={left} y={top - 7 - row * ROW_px}>
                {text}
              </text>
            </g>
          ))}
          {whiskers.map(({ key, from, at, to, lane }) => (
            <path
              key={key}
              className="pen"
              d={`M${from},${-3}v6m0,-3H${to}m0,-3v6M${at},-2v4`}
              transform={`translate(0,${top + BAR_px + LANE_px * (lane + 0.9)})`}
            />
          ))}
          <AxisX
            frame={frame}
            scale={inUnits}
            label={`${unit.symbol} a day`}
            ticks={inUnits.ticks(Math.max(3, width / 110))}
            format={(value) => numberShown(value)}
          />
        </svg>
      )}
    </ReadAlong>
  )
}

/** About the end of its part: so much further, or less far, it may reach. */
function whiskersOf(parts: readonly LaidPart[], x: (charge_C: number) => number) {
  const drawn = parts
    .map(({ kind, name, from_C, to_C, expanded_C }) => {
      const half = x(to_C) - x(to_C - expanded_C)
      return { key: `${kind} ${name} ${from_C}`, from: x(to_C) - half, at: x(to_C), to: x(to_C) + half }
    })
    .filter(({ at, to }) => to - at >= LEAST_WHISKER_px)
  const lanes = lanesOf(drawn)
  return drawn.map((whisker, i) => ({ ...whisker, lane: lanes[i] }))
}

function partWords({ name, charge_C, u_C, share }: LaidPart, unit: Unit): string {
  return `${name}: ${localised(formatMeasured(charge_C, u_C, 'charge', unit))} a day, ${shareShown(share)} of it all.`
}
