/** How long the sentence's device lasts: the verdict in words, and lives as a row of ticks. */
import { scaleLinear } from 'd3-scale'
import type { Outlook } from '../../outlook/outlook.ts'
import { lifeInWords } from '../../outlook/verdict.ts'
import { counted } from '../../quantity/counted.ts'
import { AxisX } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { localised, numberShown, quantityShown } from '../look/shown.ts'

export function LivesPart({ outlook }: { readonly outlook: Outlook }) {
  const [ref, width] = useWidth()
  const { lifeByMonth, runs, years, life } = outlook
  const frame = { width, height: 116, left: 8, right: 12, top: 8, bottom: 44 }
  const last = lifeByMonth.findLastIndex((deaths) => deaths > 0)
  const end = life.beyond > 0 || last < 0 ? years : Math.min(years, ((last + 2) / 12) * 1.15)
  const [label, perYear] =
    end < 0.75 ? (['days', 365] as const) : end < 3 ? (['months', 12] as const) : (['years', 1] as const)
  const x = scaleLinear([0, end * perYear], [frame.left, width - frame.right])
  const most = Math.max(...lifeByMonth, 1)
  const base = frame.height - frame.bottom
  const dayTakes_C = outlook.budget.reduce((sum, { charge_C }) => sum + charge_C, 0)
  return (
    <FigureFrame
      name="lives"
      title="How long it lasts"
      caption={`Each bar is a month in which runs ended, out of ${numberShown(runs)} runs with cells as they scatter. A day takes ${quantityShown(dayTakes_C, 'charge', { digits: 3 })}. ${life.median_days === null ? `More than half outlive the ${counted(years, 'year', numberShown)} played.` : `The middle one lasts ${localised(lifeInWords(life.median_days))}.`}`}
      table={{
        head: ['month', 'runs that ended', 'share (%)'],
        rows: lifeByMonth
          .map((deaths, month) => [month + 1, deaths, plain((100 * deaths) / runs, 3)] as const)
          .filter(([, deaths]) => deaths > 0),
      }}
    >
      <div ref={ref}>
        <svg viewBox={`0 0 ${width} ${frame.height}`} role="img" aria-label="Months in which runs ended">
          {lifeByMonth.map((deaths, month) =>
            deaths === 0 ? null : (
              <rect
                // biome-ignore lint/suspicious/noArrayIndexKey: months have no other name
                key={month}
                className="wash"
                x={x((month / 12) * perYear)}
                width={Math.max(2, x(perYear / 12) - x(0) - 1)}
                y={base - (deaths / most) * (base - frame.top)}
                height={(deaths / most) * (base - frame.top)}
              />
            ),
          )}
          <AxisX
            frame={frame}
            scale={x}
            label={label}
            ticks={x.ticks(6)}
            format={(value) => numberShown(value)}
          />
          {life.median_days !== null && (
            <line
              className="pen-accent"
              x1={x((life.median_days / 365) * perYear)}
              x2={x((life.median_days / 365) * perYear)}
              y1={frame.top}
              y2={base}
            />
          )}
        </svg>
      </div>
    </FigureFrame>
  )
}
