/** The worst burst as the regulator's input sees it: with the capacitor, and what would happen without. */
import { CurveChart, type Level } from '../figure/curve-chart.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { numberShown, quantityShown } from '../look/shown.ts'
import { burstCurve } from './burst-curve.ts'
import { Margin } from './margin.tsx'
import { leastInput_V, worstBurst } from './sag-curve.ts'
import { celsius, millivolts, volts } from './supply-words.ts'
import type { SupplyNow } from './use-supply.ts'

const HALF = 0.5
const LEAST_ROOM = 0.2

export function BurstFigure({ design, coldest_C }: SupplyNow) {
  const [ref, width] = useWidth()
  const burst = worstBurst(design, coldest_C)
  const points = burstCurve(design, burst, HALF, coldest_C)
  const { with_V, without_V, at_s } = points[points.length - 1]
  const least_V = leastInput_V(design)
  const isNear = (value: number) =>
    value > Math.min(...known) - LEAST_ROOM * (Math.max(...known) - Math.min(...known)) - 0.1
  const known = points.flatMap((point) => [point.with_V, point.without_V]).filter((value) => value !== null)
  if (known.length === 0)
    return <p className="margin is-short">In that cold the battery cannot give this burst at all.</p>
  const levels: Level[] =
    least_V !== null && isNear(least_V) ? [{ at: least_V, text: `brown-out, ${volts(least_V)}` }] : []
  const bounds = [...known, ...levels.map(({ at }) => at)]
  const room = Math.max(0.01, 0.08 * (Math.max(...bounds) - Math.min(...bounds)))
  const scale_s = at_s < 1 ? 1000 : 1
  return (
    <FigureFrame
      name="capacitor-burst"
      title="Through the worst burst"
      caption={`This is ${burst.name}${burst.isPeak ? ' at its peak' : ''}: ${quantityShown(burst.load.peak_A, 'current', { digits: 3 })} for ${quantityShown(at_s, 'duration', { digits: 3 })}, from a half-full battery at ${celsius(coldest_C)}. The voltage ahead of the regulator falls by steps of resistance at once and by the capacitor's charge after that.`}
      table={{
        head: ['time (s)', 'with the capacitor (V)', 'without (V)'],
        rows: points
          .filter((_, i) => i % 5 === 0)
          .map((point) => [plain(point.at_s), plain(point.with_V), plain(point.without_V)]),
      }}
    >
      <div ref={ref}>
        <CurveChart
          label="Voltage through the burst, read out"
          width={width}
          height={280}
          x={{
            domain: [0, at_s * scale_s],
            label: scale_s === 1 ? 'seconds since the burst began' : 'milliseconds since the burst began',
            format: (value) => numberShown(value),
          }}
          y={{
            domain: [Math.min(...bounds) - room, Math.max(...bounds) + room],
            label: 'volts ahead of the regulator',
            format: (value) => numberShown(value, 4),
          }}
          lines={[
            {
              name: ['with it'],
              pen: 'pen-accent',
              points: points.map((p) => [p.at_s * scale_s, p.with_V] as const),
            },
            {
              name: ['without'],
              pen: 'pen',
              isDashed: true,
              points: points.map((p) => [p.at_s * scale_s, p.without_V] as const),
            },
          ]}
          levels={levels}
          readings={points.map((p) => p.at_s * scale_s)}
          wordsOf={(index) => {
            const point = points[index]
            return `After ${quantityShown(point.at_s, 'duration', { digits: 3 })}: ${voltsOr(point.with_V)} with the capacitor, ${voltsOr(point.without_V)} without.`
          }}
        />
      </div>
      {with_V !== null && least_V !== null && (
        <Margin value={with_V - least_V} format={millivolts}>
          at the end of the burst
          {without_V === null
            ? '; without the capacitor the battery would collapse'
            : gainWords(with_V - without_V)}
        </Margin>
      )}
    </FigureFrame>
  )
}

const voltsOr = (value: number | null): string => (value === null ? 'collapsed' : volts(value))

const gainWords = (gain_V: number): string =>
  gain_V < 0.0005
    ? ', to which the capacitor adds nothing: the burst outlasts it'
    : `, of which the capacitor gives ${millivolts(gain_V)}`
