/** How long it lives: runs still alive over the years, and the months in which they died first. */
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import type { Outlook } from '../../outlook/outlook.ts'
import { lifeInWords } from '../../outlook/verdict.ts'
import { AxisX, AxisY } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { localised, numberShown, shareShown } from '../look/shown.ts'

const DAYS_A_YEAR = 365
/** The tallest bar reaches so far up. */
const TALLEST = 0.55

export function LifeFigure({ outlook }: { readonly outlook: Outlook }) {
  const { lifeByMonth, runs, years, life, aliveAfterYears } = outlook
  const [ref, width] = useWidth()
  const frame = { width, height: 270, left: 52, right: 14, top: 22, bottom: 44 }
  const x = scaleLinear([0, years], [frame.left, width - frame.right])
  const y = scaleLinear([0, 1], [frame.height - frame.bottom, frame.top])
  const alive = aliveAfterYears.map((share, year) => ({ share, year }))
  const top = Math.max(...lifeByMonth, 1)
  const median =
    life.median_days === null
      ? `More than half outlive the ${years === 1 ? 'year' : `${numberShown(years)} years`} played.`
      : `Half have died after ${localised(lifeInWords(life.median_days))}, dashed.`
  return (
    <FigureFrame
      name="life"
      title="How long it lives"
      caption={`The line is the share of runs still alive, the bars are the months in which runs died first (tallest: ${shareShown(Math.max(...lifeByMonth) / runs)} of runs). ${median}`}
      table={{
        head: ['years', 'still alive (%)', 'died first in the year before (%)'],
        rows: alive.map(({ share, year }) => [
          year,
          plain(100 * share, 4),
          year === 0 ? '' : plain(100 * (aliveAfterYears[year - 1] - share), 4),
        ]),
      }}
    >
      <div ref={ref}>
        <svg
          viewBox={`0 0 ${width} ${frame.height}`}
          role="img"
          aria-label={`Runs still alive over the years. ${median}`}
        >
          <AxisY
            frame={frame}
            scale={y}
            label="runs still alive"
            ticks={[0, 0.25, 0.5, 0.75, 1]}
            format={(share) => shareShown(share)}
          />
          <AxisX
            frame={frame}
            scale={x}
            label="years since it was left there"
            ticks={x.ticks(Math.min(years, 8)).filter(Number.isInteger)}
            format={(year) => numberShown(year)}
          />
          {lifeByMonth.map((deaths, month) =>
            deaths === 0 ? null : (
              <rect
                // biome-ignore lint/suspicious/noArrayIndexKey: months have no other name
                key={month}
                className="wash"
                x={x(month / 12)}
                width={Math.max(1, x(1 / 12) - x(0) - 0.5)}
                y={y((deaths / top) * TALLEST)}
                height={y(0) - y((deaths / top) * TALLEST)}
              />
            ),
          )}
          <path
            className="pen"
            d={
              line<(typeof alive)[number]>(
                (p) => x(p.year),
                (p) => y(p.share),
              )(alive) ?? ''
            }
          />
          {life.median_days !== null && (
            <line
              className="pen-accent dashed"
              x1={x(life.median_days / DAYS_A_YEAR)}
              x2={x(life.median_days / DAYS_A_YEAR)}
              y1={frame.top}
              y2={y(0)}
            />
          )}
        </svg>
      </div>
    </FigureFrame>
  )
}
