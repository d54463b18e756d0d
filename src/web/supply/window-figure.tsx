/** Months of air against the temperatures between which the battery may be charged. */
import { scaleLinear } from 'd3-scale'
import { MONTH_STARTS } from '../../sky/calendar.ts'
import type { ChargeWindow } from '../../supply/supply.ts'
import { AxisY, type Frame } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { ReadAlong } from '../figure/read-along.tsx'
import { useWidth } from '../figure/use-width.ts'
import { dayShown, numberShown } from '../look/shown.ts'
import { type MonthAir, monthsOf } from './charge-window.ts'
import { celsius } from './supply-words.ts'
import type { SupplyNow } from './use-supply.ts'

const MARGINS = { left: 42, right: 84, top: 22, bottom: 28 }
const HEIGHT = 300
const ROOM_K = 4
/** A lock-out that is stated as none lies far below any air. */
const NO_LOW_C = -60

const monthName = (month: number, style: 'long' | 'short' | 'narrow') =>
  dayShown(MONTH_STARTS[month] + 14, { month: style })

export function WindowFigure({ design, window }: SupplyNow & { readonly window: ChargeWindow }) {
  const [ref, width] = useWidth()
  const { climate, enclosureRise_K } = design.place
  const months = monthsOf(climate, enclosureRise_K, window)
  const frame: Frame = { ...MARGINS, width, height: HEIGHT }
  const hasLow = window.low_C > NO_LOW_C
  const lows = months.map(({ coldNight_C }) => coldNight_C)
  const low = Math.min(...lows, hasLow ? window.low_C : Infinity) - ROOM_K
  const high = Math.max(...months.map(({ box_C }) => box_C), window.high_C) + ROOM_K
  const y = scaleLinear([low, high], [HEIGHT - frame.bottom, frame.top])
  const x = scaleLinear([0, 12], [frame.left, width - frame.right])
  const bar = (x(1) - x(0)) * 0.5
  return (
    <FigureFrame
      name="charge-window"
      title="When it may be charged"
      caption={windowCaption(months, window, hasLow)}
      table={{
        head: [
          'month',
          'mean night (°C)',
          'mean day (°C)',
          'cold night (°C)',
          'hot day (°C)',
          'in the box, in the sun (°C)',
        ],
        rows: months.map((each) => [
          monthName(each.month, 'long'),
          plain(each.night_C),
          plain(each.day_C),
          plain(each.coldNight_C),
          plain(each.hotDay_C),
          plain(each.box_C),
        ]),
      }}
    >
      <div ref={ref}>
        <ReadAlong
          label="Temperatures by month, read out"
          count={12}
          wordsOf={(month) => monthWords(months[month], window, hasLow)}
          indexAt={(at) => Math.max(0, Math.min(11, Math.floor(x.invert(at))))}
          width={width}
          page={3}
        >
          {(read) => (
            <svg viewBox={`0 0 ${width} ${HEIGHT}`} height={HEIGHT} aria-hidden="true">
              <rect
                className="wash-accent"
                x={frame.left}
                width={width - frame.left - frame.right}
                y={y(window.high_C)}
                height={y(Math.max(low, window.low_C)) - y(window.high_C)}
              />
              <AxisY
                frame={frame}
                scale={y}
                label="°C"
                ticks={y.ticks(6)}
                format={(value) => numberShown(value)}
              />
              {[window.high_C, ...(hasLow ? [window.low_C] : [])].map((at, i) => (
                <g key={at}>
                  <line className="level" x1={frame.left} x2={width - frame.right} y1={y(at)} y2={y(at)} />
                  <text className="level-name" x={width - frame.right + 8} y={y(at) + 4}>
                    {i === 0 ? `to ${celsius(at)}` : `from ${celsius(at)}`}
                  </text>
                </g>
              ))}
              {months.map((each) => {
                const middle = x(each.month + 0.5)
                return (
                  <g key={each.month} className={each.month === read ? 'month is-read' : 'month'}>
                    <line
                      className="pen"
                      x1={middle}
                      x2={middle}
                      y1={y(each.coldNight_C)}
                      y2={y(each.hotDay_C)}
                    />
                    <rect
                      x={middle - bar / 2}
                      width={bar}
                      y={y(each.day_C)}
                      height={Math.max(1, y(each.night_C) - y(each.day_C))}
                    />
                    <path className="pen-accent" d={`M${middle - bar / 2},${y(each.box_C)}h${bar}`} />
                    <text x={middle} y={HEIGHT - 8} textAnchor="middle">
                      {monthName(each.month, width < 520 ? 'narrow' : 'short')}
                    </text>
                  </g>
                )
              })}
            </svg>
          )}
        </ReadAlong>
      </div>
    </FigureFrame>
  )
}

function windowCaption(months: readonly MonthAir[], window: ChargeWindow, hasLow: boolean): string {
  const cold = months.filter(({ isNightTooCold }) => isNightTooCold)
  const colder = months.filter(({ isDayTooCold }) => isDayTooCold)
  const hot = months.filter(({ isBoxTooHot }) => isBoxTooHot)
  const names = (which: readonly MonthAir[]) => which.map(({ month }) => monthName(month, 'short')).join(', ')
  const low = hasLow
    ? cold.length === 0
      ? `No month's mean night is below ${celsius(window.low_C)}.`
      : `Mean nights are below ${celsius(window.low_C)} in ${names(cold)}${colder.length === 0 ? '' : `, and mean days too in ${names(colder)}`}: until it warms up nothing is charged.`
    : 'Nothing keeps it from being charged in the cold.'
  const high =
    hot.length === 0
      ? ''
      : ` On a hot day in the sun the box gets above ${celsius(window.high_C)} in ${names(hot)}, and charging stops.`
  return `Bars go from the mean night to the mean day of each month, thin lines to one night and one day in forty; the stroke above is the box in full sun on that day. ${low}${high}`
}

function monthWords(each: MonthAir, window: ChargeWindow, hasLow: boolean): string {
  const cold = hasLow && each.isNightTooCold ? `, below ${celsius(window.low_C)} at night` : ''
  const hot = each.isBoxTooHot ? `, too hot to be charged` : ''
  return `${monthName(each.month, 'long')}: nights ${celsius(each.night_C)}${cold}, days ${celsius(each.day_C)}; one night in forty ${celsius(each.coldNight_C)}; in the box, in the sun, up to ${celsius(each.box_C)}${hot}.`
}
