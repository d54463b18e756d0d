/** What of the battery's power reaches the rail, by the current drawn there. */
import { openCircuit_V } from '../../supply/cell.ts'
import type { Regulator } from '../../supply/supply.ts'
import { stepsOf } from '../../wake/outcomes.ts'
import { CurveChart, type Dot } from '../figure/curve-chart.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { quantityShown, shareShown } from '../look/shown.ts'
import { efficiencyCurve, efficiencyPoint } from './efficiency-curve.ts'
import { packOf } from './sag-curve.ts'
import { amperes, volts } from './supply-words.ts'
import { MILD_C, type SupplyNow } from './use-supply.ts'

type Real = Exclude<Regulator<number>, { kind: 'none' }>

export function EfficiencyFigure({ design, regulator }: SupplyNow & { readonly regulator: Real }) {
  const [ref, width] = useWidth()
  const { wake } = design
  const half_V = openCircuit_V(packOf(design).cell, 0.5, MILD_C)
  const loads = [
    ...(wake.rest_A > 0 ? [{ text: 'rest', at: wake.rest_A }] : []),
    ...stepsOf(wake).map(({ name, current_A }) => ({ text: name, at: current_A })),
  ].filter(({ at }) => at > 0)
  const low_A = Math.min(1e-5, ...loads.map(({ at }) => at / 2))
  const high_A = Math.max(1e-2, ...loads.map(({ at }) => 2 * at))
  const points = efficiencyCurve(regulator, half_V, low_A, high_A)
  const stated = 'efficiency' in regulator ? regulator.efficiency : null
  const dots: Dot[] =
    stated === null || points[0].converter === null
      ? []
      : stated.x.flatMap((x, i) => (x >= low_A && x <= high_A ? [{ x, y: stated.y[i], isHollow: true }] : []))
  const atRest = wake.rest_A > 0 ? efficiencyPoint(regulator, half_V, wake.rest_A).whole : null
  return (
    <FigureFrame
      name="regulator-efficiency"
      title="What reaches the rail"
      caption={`Power at the rail over power from a half-full battery of ${volts(half_V)}: the line counts what the regulator takes for itself (${amperes(regulator.quiescent_A)})${points[0].converter === null ? '' : ', the dashed one does not; circles are the points of the file'}.${atRest === null ? '' : ` At rest ${shareShown(atRest)} gets through.`}`}
      table={{
        head: ['current at the rail (A)', 'converter (%)', 'with its own needs (%)'],
        rows: points
          .filter((_, i) => i % 5 === 0)
          .map(({ rail_A, converter, whole }) => [plain(rail_A), percent(converter), percent(whole)]),
      }}
    >
      <div ref={ref}>
        <CurveChart
          label="Efficiency by current, read out"
          width={width}
          height={310}
          x={{
            isLog: true,
            domain: [low_A, high_A],
            label: 'current at the rail',
            format: (current_A) => quantityShown(current_A, 'current', { digits: 1 }),
          }}
          y={{ domain: [0, 1], label: 'efficiency', format: (share) => shareShown(share) }}
          lines={[
            {
              name: ['in all'],
              pen: 'pen-accent',
              points: points.map(({ rail_A, whole }) => [rail_A, whole] as const),
            },
            ...(points[0].converter === null
              ? []
              : [
                  {
                    name: ['converter'],
                    pen: 'pen' as const,
                    isDashed: true,
                    points: points.map(({ rail_A, converter }) => [rail_A, converter] as const),
                  },
                ]),
          ]}
          posts={loads}
          dots={dots}
          readings={points.map(({ rail_A }) => rail_A)}
          wordsOf={(index) => {
            const { rail_A, whole } = points[index]
            return whole === null
              ? `${amperes(rail_A)}: the regulator has stopped at this voltage.`
              : `${amperes(rail_A)} at the rail: ${shareShown(whole)} of the battery's power reaches it.`
          }}
        />
      </div>
    </FigureFrame>
  )
}

const percent = (share: number | null): number | string => plain(share === null ? null : 100 * share)
