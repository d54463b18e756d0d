/** Charge over the whole life: winters show as dips. */
import { scaleLinear } from 'd3-scale'
import type { Outlook } from '../../outlook/outlook.ts'
import { counted } from '../../quantity/counted.ts'
import { AxisX } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { useWidth } from '../figure/use-width.ts'
import { numberShown } from '../look/shown.ts'
import { Fan, type FanPoint } from './fan.tsx'
import { fanTable } from './fan-table.ts'

const WEEKS_A_YEAR = 365 / 7

export function DischargeFigure({ outlook }: { readonly outlook: Outlook }) {
  const [ref, width] = useWidth()
  const frame = { width, height: 270, left: 52, right: 14, top: 22, bottom: 44 }
  const points = outlook.byWeek.map((band) => ({ ...band, x: band.at / WEEKS_A_YEAR }))
  if (points.length < 2) return null
  const last = points[points.length - 1].x
  const nameOf = (point: FanPoint) => `after ${counted(point.x, 'year', numberShown)}`
  const scale = scaleLinear([0, last], [frame.left, width - frame.right])
  return (
    <FigureFrame
      name="discharge"
      title="Charge over its life"
      caption="Least charge of each week that the cell can give at that temperature, so winters show as dips. Nine runs in ten lie in the pale band, half in the darker one; the line is the middle run."
      table={fanTable(points, 'age', nameOf, 13)}
    >
      <div ref={ref}>
        <Fan
          points={points}
          frame={frame}
          domain={[0, last]}
          nameOf={nameOf}
          label="Charge left over the years"
          over={() => (
            <AxisX
              frame={frame}
              scale={scale}
              label="years since it was left there"
              ticks={scale.ticks(6)}
              format={(year) => numberShown(year)}
            />
          )}
        />
      </div>
    </FigureFrame>
  )
}
