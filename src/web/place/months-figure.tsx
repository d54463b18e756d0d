/** Light and air month by month: on the panel as it stands, and on the flat as the weather has it. */
import { scaleLinear } from 'd3-scale'
import type { Outlook } from '../../outlook/outlook.ts'
import { best } from '../../quantity/spread.ts'
import { MONTH_STARTS, monthlyMeans } from '../../sky/calendar.ts'
import { dailyExtraterrestrial_J_m2 } from '../../sky/extraterrestrial.ts'
import type { Place } from '../../sky/place.ts'
import { AxisY } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { dayShown, numberShown, quantityShown } from '../look/shown.ts'

const J_PER_KWH = 3.6e6
const MONTHS = Array.from({ length: 12 }, (_, month) => month)

export interface MonthsFigureProps {
  readonly outlook: Outlook
  readonly place: Place
  readonly hasPanel: boolean
}

export function MonthsFigure({ outlook, place, hasPanel }: MonthsFigureProps) {
  const [ref, width] = useWidth()
  const { climate } = place
  const onPanel = monthlyMeans(outlook.light_J_m2).map((light) => light / J_PER_KWH)
  const flat = MONTHS.map(
    (month) => (climate.clearness[month] * extraterrestrial(month, place.latitude_deg)) / J_PER_KWH,
  )
  const most = Math.max(...flat, ...(hasPanel ? onPanel : []), 0.1)
  const frame = { width, height: 280, left: 44, right: 10, top: 24, bottom: 48 }
  const slot = (width - frame.left - frame.right) / 12
  const y = scaleLinear([0, most * 1.05], [frame.height - frame.bottom, frame.top])
  const base = y(0)
  const darkest = MONTHS.reduce(
    (a, b) => ((hasPanel ? onPanel : flat)[b] < (hasPanel ? onPanel : flat)[a] ? b : a),
    0,
  )
  return (
    <FigureFrame
      name="months"
      title="Light and air, month by month"
      caption={`${hasPanel ? 'Wide bars are the light on the panel, with its tilt, dirt and skyline; the thin lines across them' : 'The lines'} are the light on the flat, in kWh/m² a day. The darkest month is ${name(darkest, 'long')}, with ${numberShown((hasPanel ? onPanel : flat)[darkest], 2)} kWh/m² a day. Below each month its mean temperature.`}
      table={{
        head: [
          'month',
          'on the flat (kWh/m²/d)',
          ...(hasPanel ? ['on the panel (kWh/m²/d)'] : []),
          'clearness index',
          'mean temperature (°C)',
          'daily range (K)',
        ],
        rows: MONTHS.map((month) => [
          name(month, 'long'),
          plain(flat[month], 3),
          ...(hasPanel ? [plain(onPanel[month], 3)] : []),
          plain(climate.clearness[month], 3),
          plain(climate.temperature_C[month], 3),
          plain(climate.dailyRange_K[month], 3),
        ]),
      }}
    >
      <div ref={ref}>
        <svg viewBox={`0 0 ${width} ${frame.height}`} role="img" aria-label="Light by month">
          <AxisY
            frame={frame}
            scale={y}
            label="kWh/m² a day"
            ticks={y.ticks(4)}
            format={(value) => numberShown(value)}
          />
          {MONTHS.map((month) => {
            const left = frame.left + month * slot
            return (
              <g key={month}>
                {hasPanel && (
                  <rect
                    className="wash"
                    x={left + slot * 0.16}
                    width={slot * 0.68}
                    y={y(onPanel[month])}
                    height={base - y(onPanel[month])}
                  />
                )}
                <line
                  className="pen-cool"
                  x1={left + slot * 0.08}
                  x2={left + slot * 0.92}
                  y1={y(flat[month])}
                  y2={y(flat[month])}
                />
                <g className="axis">
                  <text x={left + slot / 2} y={base + 17} textAnchor="middle">
                    {name(month, width < 560 ? 'narrow' : 'short')}
                  </text>
                  <text x={left + slot / 2} y={base + 35} textAnchor="middle">
                    {numberShown(climate.temperature_C[month], 2)}°
                  </text>
                </g>
              </g>
            )
          })}
        </svg>
      </div>
      <p className="hint">
        Days vary about these means: the darkest has a clearness index of {numberShown(climate.floor, 2)}, a
        day resembles the day before with a correlation of {numberShown(climate.persistence, 2)}, and a day's
        mean temperature lies {numberShown(climate.dailyDeviation_K, 2)} K about the month's (standard
        deviation). The cell gets up to{' '}
        {quantityShown(best(place.enclosureRise_K), 'temperatureDifference', { digits: 2 })} warmer than the
        air in full sun.
      </p>
    </FigureFrame>
  )
}

const name = (month: number, as: 'long' | 'short' | 'narrow'): string =>
  dayShown(MONTH_STARTS[month], { month: as })

function extraterrestrial(month: number, latitude_deg: number): number {
  let sum = 0
  for (let day = MONTH_STARTS[month]; day < MONTH_STARTS[month + 1]; day++)
    sum += dailyExtraterrestrial_J_m2(latitude_deg, day + 1)
  return sum / (MONTH_STARTS[month + 1] - MONTH_STARTS[month])
}
