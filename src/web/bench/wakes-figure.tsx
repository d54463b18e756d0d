/** All wakes laid over each other from their first rise: shades where they agree, and an odd one drawn over them. */
import { scaleLinear, scaleLog } from 'd3-scale'
import { useEffect, useMemo, useState } from 'react'
import type { Density, ReadAnswer } from '../../api/bench.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { duration, namesOf } from '../../report/recording-words.ts'
import { AxisX, AxisY } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { useWidth } from '../figure/use-width.ts'
import { localised } from '../look/shown.ts'
import { densityColumns, densityPicture } from './density.ts'
import { useOneWake } from './one-wake.ts'

export interface WakesFigureProps {
  readonly answer: ReadAnswer
  readonly density: Density
  readonly query: string
  /** An index into the list of cycles, drawn over the others; null for none. */
  readonly odd: number | null
}

const HEIGHT = 280
const MARGIN = { left: 64, right: 24, top: 26, bottom: 42 }
const TABLE_ROWS = 60

export function WakesFigure({ answer, density, query, odd }: WakesFigureProps) {
  const { reading, cycles: all } = answer
  const { typical, list } = reading.cycles
  const [box, width] = useWidth()
  const picture = usePicture(density)
  const columns = useMemo(() => densityColumns(density), [density])
  const start_s = odd === null ? null : reading.span.from_s + list[odd].start_s
  const wake = useOneWake(query, start_s, density)
  const frame = { width, height: HEIGHT, ...MARGIN }
  const x = scaleLinear([0, density.duration_s], [frame.left, width - frame.right])
  const y = scaleLog([density.lowest_A, density.highest_A], [HEIGHT - frame.bottom, frame.top])
  const amount = (current_A: number) => localised(formatQuantity(current_A, 'current', { digits: 3 }))
  const powers = y.ticks().filter((tick) => Math.abs(Math.log10(tick) - Math.round(Math.log10(tick))) < 1e-6)
  const odds = list.filter((cycle) => cycle.odd.length > 0).length
  const step = Math.max(Math.ceil(columns.length / TABLE_ROWS), 1)
  const shown = density.wakes === all ? `All ${all} wakes` : `${density.wakes} of ${all} wakes`
  return (
    <FigureFrame
      name="wakes"
      title="The wakes laid over each other"
      caption={
        <>
          {shown} from their first rise on; the stronger the ink, the more samples lie there. The line is the
          median.{' '}
          {typical !== null &&
            `The typical wake goes through ${namesOf(reading.states, typical.sequence)} and came ${typical.wakes} times; ${odds === 0 ? 'none is odd' : odds === 1 ? 'one is odd' : `${odds} are odd`}.`}
          {odd !== null && ' The dashed line is the odd wake that was chosen below.'}
        </>
      }
      table={{
        head: ['from (s)', '10 % below (A)', 'median (A)', '90 % below (A)'],
        rows: columns
          .filter((_, k) => k % step === 0)
          .map(({ from_s, p10_A, median_A, p90_A }) =>
            [from_s, p10_A, median_A, p90_A].map((value) => Number(value.toPrecision(4))),
          ),
      }}
    >
      <div ref={box}>
        <svg viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={`${shown} laid over each other`}>
          <AxisY frame={frame} scale={y} label="current" ticks={powers} format={amount} />
          <image
            href={picture}
            x={frame.left}
            y={frame.top}
            width={width - frame.left - frame.right}
            height={HEIGHT - frame.top - frame.bottom}
            preserveAspectRatio="none"
            className="density"
          />
          <path
            d={line(columns.map(({ from_s, median_A }) => [x(from_s), y(median_A)]))}
            className="pen-accent"
          />
          {wake !== null && (
            <path
              d={line(wake.map(({ at_s, current_A }) => [x(at_s), y(Math.max(current_A, density.lowest_A))]))}
              className="pen-cool dashed"
            />
          )}
          <AxisX
            frame={frame}
            scale={x}
            label="time since the wake"
            ticks={x.ticks(Math.max(Math.floor(width / 110), 2))}
            format={(time_s) => localised(duration(time_s))}
          />
          {reading.states
            .filter(({ mean_A }) => mean_A > density.lowest_A)
            .map(({ name, mean_A }) => (
              <text key={name} x={width - frame.right + 6} y={y(mean_A)} dy="0.32em">
                {name}
              </text>
            ))}
        </svg>
      </div>
    </FigureFrame>
  )
}

const line = (points: readonly (readonly [number, number])[]): string =>
  points.length === 0 ? '' : `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`

/** In the ink of the page, light or dark. */
function usePicture(density: Density): string {
  const [turn, setTurn] = useState(0)
  useEffect(() => {
    const dark = matchMedia('(prefers-color-scheme: dark)')
    const again = () => setTurn((now) => now + 1)
    dark.addEventListener('change', again)
    return () => dark.removeEventListener('change', again)
  }, [])
  // biome-ignore lint/correctness/useExhaustiveDependencies: another turn has other colours
  return useMemo(
    () =>
      densityPicture(density, getComputedStyle(document.documentElement).getPropertyValue('--ink').trim()),
    [density, turn],
  )
}
