/** What a full battery delivers by the current that is drawn, mild and cold. */
import { fromBase } from '../../quantity/unit.ts'
import { dayUnit } from '../../report/day-unit.ts'
import { CurveChart } from '../figure/curve-chart.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { numberShown, quantityShown, shareShown } from '../look/shown.ts'
import { useAnswers } from '../verdict/answers.ts'
import { deliveredCurve, endVoltage_V, packCurrents_A, ratesFor } from './delivered-curve.ts'
import { packOf } from './sag-curve.ts'
import { amperes, celsius, volts } from './supply-words.ts'
import { MILD_C, type SupplyNow } from './use-supply.ts'

const DAY_s = 86_400

export function DeliveredFigure({ design, coldest_C }: SupplyNow) {
  const [ref, width] = useWidth()
  const { forecast } = useAnswers()
  const { cell } = packOf(design)
  const unit = dayUnit(cell.capacity_C)
  const inUnit = (charge_C: number) => fromBase(charge_C, unit)
  const perDay_C = forecast?.outlook.budget.reduce((sum, part) => sum + part.charge_C, 0) ?? null
  const mean_A = perDay_C === null ? null : perDay_C / DAY_s
  const rates = ratesFor(design, mean_A)
  const [low_A, high_A] = rates
  const [mild, cold] = [MILD_C, coldest_C].map((at_C) => deliveredCurve(design, at_C, rates))
  const posts = [
    ...(mean_A === null ? [] : [{ text: "the day's mean", at: mean_A }]),
    ...packCurrents_A(design).map(({ name, current_A }) => ({ text: name, at: current_A })),
  ].filter(({ at }) => at >= low_A && at <= high_A)
  const lines = [
    { curve: mild, pen: 'pen' as const },
    { curve: cold, pen: 'pen-cool' as const },
  ]
  return (
    <FigureFrame
      name="cell-delivers"
      title="What it delivers, by rate and cold"
      caption={`Charge that a full battery gives at a constant current until its voltage under that current is down to ${volts(endVoltage_V(design))}, where the device or the cell ends. ${mean_A === null ? '' : `On average this device draws ${amperes(mean_A)}. `}The wells that make a fast discharge shorter fill up again between wakes; self-discharge is left out here.`}
      table={{
        head: [
          'current (A)',
          `at ${celsius(MILD_C)} (${unit.symbol})`,
          `at ${celsius(coldest_C)} (${unit.symbol})`,
        ],
        rows: mild.points
          .map(([current_A, charge_C], i) => [
            plain(current_A),
            plain(inUnit(charge_C)),
            plain(inUnit(cold.points[i][1])),
          ])
          .filter((_, i) => i % 5 === 0),
      }}
    >
      <div ref={ref}>
        <CurveChart
          label="Charge delivered by current, read out"
          width={width}
          height={300}
          x={{
            isLog: true,
            domain: [low_A, high_A],
            label: 'current from the battery',
            format: (current_A) => quantityShown(current_A, 'current', { digits: 1 }),
          }}
          y={{
            domain: [0, 1.08 * inUnit(cell.capacity_C)],
            label: unit.symbol,
            format: (value) => numberShown(value),
          }}
          lines={lines.map(({ curve, pen }) => ({
            name: [`at ${celsius(curve.temperature_C)}`],
            pen,
            points: curve.points.map(([current_A, charge_C]) => [current_A, inUnit(charge_C)] as const),
          }))}
          posts={posts}
          readings={mild.points.map(([current_A]) => current_A)}
          wordsOf={(index) => {
            const [current_A, charge_C] = mild.points[index]
            const [, cold_C] = cold.points[index]
            return `${amperes(current_A)}: ${quantityShown(charge_C, 'charge', { digits: 3 })} at ${celsius(MILD_C)}, ${shareShown(charge_C / cell.capacity_C)} of it all; ${quantityShown(cold_C, 'charge', { digits: 3 })} at ${celsius(coldest_C)}.`
          }}
        />
      </div>
    </FigureFrame>
  )
}
