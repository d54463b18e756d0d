/** The year from cut to cut, so that the darkest weeks lie in the middle: charge as a fan, deaths marked with their cause. */
import { line } from 'd3-shape'
import { CAUSES, type Cause } from '../../outlook/cause.ts'
import type { Outlook } from '../../outlook/outlook.ts'
import { DAYS, MONTH_STARTS } from '../../sky/calendar.ts'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { useWidth } from '../figure/use-width.ts'
import { dayShown, numberShown, quantityShown, shareShown } from '../look/shown.ts'
import { DeathMark } from './death-mark.tsx'
import { Fan, type FanPoint } from './fan.tsx'
import { fanTable } from './fan-table.ts'

const FORTNIGHT_DAYS = 14
const MARGINS = { left: 52, right: 14, top: 22, bottom: 44 }

export function YearFigure({ outlook }: { readonly outlook: Outlook }) {
  const { cutDay, byDay, light_J_m2, worstFortnight, deathsByDay } = outlook
  const [ref, width] = useWidth()
  const frame = { ...MARGINS, width, height: Math.round(Math.min(400, Math.max(260, width * 0.42))) }
  const since = (day: number) => (day - cutDay + DAYS) % DAYS
  const points = byDay.map((band) => ({ ...band, x: since(band.at) }))
  const light = light_J_m2.map((perDay, day) => ({ x: since(day), perDay })).sort((a, b) => a.x - b.x)
  const brightest = Math.max(...light.map(({ perDay }) => perDay), 1e-9)
  const worst = since(worstFortnight.startDay)
  const nameOf = (point: FanPoint) => dayShown(point.at)
  return (
    <FigureFrame
      name="year"
      title="The year"
      caption={
        <>
          Least charge of each day from {dayShown(cutDay)} on, so that the darkest weeks lie in the middle.
          Nine years in ten lie in the pale band, half in the darker one; the line is the middle year. The
          worst fortnight, shaded, starts about {dayShown(worstFortnight.startDay)}:{' '}
          {worstFortnight.downHours < 0.05 ? 'no hours' : `${numberShown(worstFortnight.downHours, 2)} hours`}{' '}
          down on average, and {shareShown(worstFortnight.p5State)} of charge left in one year of twenty.
          {outlook.rechargeable && (
            <>
              {' '}
              The dotted line is the light on the panel, up to{' '}
              {quantityShown(brightest, 'dailyIrradiation', { digits: 2 })}.
            </>
          )}{' '}
          <DeathWords outlook={outlook} />
        </>
      }
      table={fanTable(points, 'day', nameOf, 7)}
    >
      <div ref={ref}>
        <Fan
          points={points}
          frame={frame}
          domain={[0, DAYS]}
          nameOf={nameOf}
          label="Charge left by day of the year"
          under={(x) => (
            <rect
              className="wash-accent"
              x={x(worst)}
              width={x(FORTNIGHT_DAYS) - x(0)}
              y={frame.top}
              height={frame.height - frame.top - frame.bottom}
            />
          )}
          over={(x, y) => (
            <>
              {outlook.rechargeable && (
                <path
                  className="pen-cool dotted"
                  d={
                    line<(typeof light)[number]>(
                      (l) => x(l.x),
                      (l) => y(l.perDay / brightest),
                    )(light) ?? ''
                  }
                />
              )}
              {deathsByDay.map(({ cause, day, deaths }) => (
                <DeathMark
                  key={`${cause} ${day}`}
                  cause={cause}
                  x={x(since(day))}
                  y={frame.height - frame.bottom + 8}
                  size={2 + Math.min(Math.sqrt(deaths), 4)}
                />
              ))}
              <Months frame={frame} x={x} since={since} isNarrow={width < 560} />
            </>
          )}
        />
      </div>
    </FigureFrame>
  )
}

function Months({
  frame,
  x,
  since,
  isNarrow,
}: {
  readonly frame: { readonly height: number; readonly bottom: number }
  readonly x: (value: number) => number
  readonly since: (day: number) => number
  readonly isNarrow: boolean
}) {
  return (
    <g className="axis">
      {MONTH_STARTS.slice(0, 12).map((start) => (
        <text key={start} x={x(since(start + 14))} y={frame.height - frame.bottom + 30} textAnchor="middle">
          {dayShown(start, { month: isNarrow ? 'narrow' : 'short' })}
        </text>
      ))}
    </g>
  )
}

function DeathWords({ outlook: { deathsByDay } }: { readonly outlook: Outlook }) {
  const seen = CAUSES.filter((cause) => deathsByDay.some((death) => death.cause === cause))
  if (seen.length === 0) return <>No run died.</>
  return (
    <>
      Marks at the foot are deaths:{' '}
      {seen.map((cause: Cause, i) => (
        <span key={cause}>
          {i > 0 && ', '}
          <svg className="inline-mark" viewBox="0 0 14 14" aria-hidden="true">
            <DeathMark cause={cause} x={7} y={7} size={4.5} />
          </svg>{' '}
          {cause}
        </span>
      ))}
      .
    </>
  )
}
