/** Open-circuit voltage and voltage under the worst burst over charge, mild and cold, against cut-off and brown-out. */
import { CurveChart, type Level } from '../figure/curve-chart.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { numberShown, quantityShown, shareShown } from '../look/shown.ts'
import { Margin } from './margin.tsx'
import {
  leastInput_V,
  packOf,
  type SagCurve,
  type SagPoint,
  sagCurve,
  sagPoint,
  worstBurst,
} from './sag-curve.ts'
import { celsius, millivolts, volts } from './supply-words.ts'
import { MILD_C, type SupplyNow } from './use-supply.ts'

const HALF = 0.5

export function SagFigure({ design, coldest_C }: SupplyNow) {
  const [ref, width] = useWidth()
  const mild = sagCurve(design, MILD_C)
  const cold = sagCurve(design, coldest_C)
  const burst = worstBurst(design, coldest_C)
  const { cell } = packOf(design)
  const least_V = leastInput_V(design)
  const levels: Level[] = [
    ...(least_V === null ? [] : [{ at: least_V, text: `brown-out, ${volts(least_V)}` }]),
    ...(cell.cutOff_V > 0 ? [{ at: cell.cutOff_V, text: `cut-off, ${volts(cell.cutOff_V)}` }] : []),
  ]
  const all = [mild, cold].flatMap(({ points }) =>
    points.flatMap(({ open_V, lowest_V }) => [open_V, lowest_V ?? open_V]),
  )
  const bounds = [...all, ...levels.map(({ at }) => at)]
  const [low, high] = [Math.min(...bounds), Math.max(...bounds)]
  const room = 0.06 * (high - low)
  const [open, loaded] = [
    (point: SagPoint) => [point.charged, point.open_V] as const,
    (point: SagPoint) => [point.charged, point.lowest_V] as const,
  ]
  const words = `${burst.name}${burst.isPeak ? ' at its peak' : ''}`
  return (
    <FigureFrame
      name="cell-voltage"
      title="Voltage as it empties"
      caption={caption(design, mild, cold, words)}
      table={{
        head: [
          'temperature (°C)',
          'charged (%)',
          'open (V)',
          'resistance (Ω)',
          'lowest under the bursts (V)',
          'in hand (V)',
        ],
        rows: [mild, cold].flatMap(({ temperature_C, points }) =>
          points
            .filter((_, i) => i % 5 === 0)
            .map((point) => [
              plain(temperature_C),
              plain(100 * point.charged),
              plain(point.open_V),
              plain(point.resistance_Ohm),
              plain(point.lowest_V),
              plain(point.margin_V),
            ]),
        ),
      }}
    >
      <div ref={ref}>
        <CurveChart
          label="Voltage by charge, read out"
          width={width}
          height={340}
          x={{
            domain: [1, 0],
            label: 'charge left, of what it holds at 20 °C',
            format: (share) => shareShown(share),
          }}
          y={{
            domain: [low - room, high + room],
            label: 'volts of the battery',
            format: (value) => numberShown(value),
          }}
          lines={[
            { name: ['at rest,', celsius(MILD_C)], pen: 'pen', points: mild.points.map(open) },
            {
              name: ['in the burst,', celsius(MILD_C)],
              pen: 'pen',
              isDashed: true,
              points: mild.points.map(loaded),
            },
            { name: ['at rest,', celsius(coldest_C)], pen: 'pen-cool', points: cold.points.map(open) },
            {
              name: ['in the burst,', celsius(coldest_C)],
              pen: 'pen-cool',
              isDashed: true,
              points: cold.points.map(loaded),
            },
          ]}
          levels={levels}
          readings={mild.points.map(({ charged }) => charged)}
          wordsOf={(index) => {
            const point = mild.points[index]
            return readout(point, coldPoint(design, cold, point.charged), coldest_C)
          }}
        />
      </div>
      {cold.withheld < HALF && <HalfFull design={design} coldest_C={coldest_C} words={words} />}
    </FigureFrame>
  )
}

function HalfFull({ design, coldest_C, words }: SupplyNow & { readonly words: string }) {
  const { margin_V } = sagPoint(design, HALF, coldest_C)
  if (margin_V === null) return null
  return (
    <Margin value={margin_V} format={millivolts}>
      above a brown-out at half charge and {celsius(coldest_C)}, through {words}
    </Margin>
  )
}

/** Null where the cold leaves it nothing. */
const coldPoint = (design: SupplyNow['design'], { withheld, temperature_C }: SagCurve, charged: number) =>
  charged < withheld ? null : sagPoint(design, charged, temperature_C)

function readout(mild: SagPoint, cold: SagPoint | null, coldest_C: number): string {
  const at = (point: SagPoint | null, temperature_C: number) => {
    if (point === null) return `at ${celsius(temperature_C)} it is empty`
    const sag =
      point.lowest_V === null
        ? 'collapses under the burst'
        : `sags by ${millivolts(point.open_V - point.lowest_V)} to ${volts(point.lowest_V)}`
    return `at ${celsius(temperature_C)} ${volts(point.open_V)}, ${sag}${handWords(point.margin_V)}`
  }
  return `${shareShown(mild.charged)} left: ${at(mild, MILD_C)}; ${at(cold, coldest_C)}.`
}

function handWords(margin_V: number | null): string {
  if (margin_V === null) return ', which no voltage would carry'
  return margin_V < 0 ? `, short by ${millivolts(-margin_V)}` : `, ${millivolts(margin_V)} in hand`
}

function caption(design: SupplyNow['design'], mild: SagCurve, cold: SagCurve, words: string): string {
  const { peak_s } = worstBurst(design, cold.temperature_C).load
  const ends = (curve: SagCurve): string => {
    const at = celsius(curve.temperature_C)
    if (curve.failsBelow !== null && curve.failsBelow >= 1) return `At ${at} even a full battery browns out.`
    if (curve.failsBelow !== null && curve.failsBelow > curve.withheld + 0.011)
      return `At ${at} it browns out once about ${shareShown(curve.failsBelow)} is left.`
    if (curve.withheld > 0.005)
      return `At ${at} it is empty with ${shareShown(curve.withheld)} still in it, which comes back with warmth.`
    return `At ${at} it can be emptied.`
  }
  return `The dashed lines are how low ${words} (${quantityShown(peak_s, 'duration', { digits: 3 })}) pulls the regulator's input, by resistance and capacitor. ${ends(mild)} ${cold.temperature_C < MILD_C - 1 ? ends(cold) : ''} The device stops where the dashed line meets the brown-out${cutOffWords(design)}.`
}

function cutOffWords({ supply }: SupplyNow['design']): string {
  const { cutOff_V, charging } = supply.pack.cell
  if (cutOff_V <= 0) return ''
  return `; the cut-off is where the cell's data sheet ends a discharge${charging === null ? '' : ', and deeper does it harm'}`
}
