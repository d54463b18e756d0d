/** The panel's current over voltage in two lights, its best point, and where the charger holds it. */
import { parametersAt } from '../../supply/panel.ts'
import { currentAt } from '../../supply/single-diode.ts'
import type { Panel } from '../../supply/supply.ts'
import { CurveChart, type Dot, type Post } from '../figure/curve-chart.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { numberShown, shareShown } from '../look/shown.ts'
import { fittedPanel, type HeldPoint, lightsFor, type PanelCurve, panelCurve } from './panel-curves.ts'
import { amperes, celsius, volts, watts } from './supply-words.ts'
import type { SupplyNow } from './use-supply.ts'

const READINGS = 60
/** Where the curves are flat. */
const NAME_AT = 0.03
/** Two batteries that hold the panel this close together are one post. */
const SAME_V = 0.02

export function PanelFigure({ design, panel }: SupplyNow & { readonly panel: Panel<number> }) {
  const [ref, width] = useWidth()
  const [sun, dull] = lightsFor(design).map((light) => panelCurve(design, panel, light))
  const top_V = 1.04 * Math.max(sun.open_V, dull.open_V)
  const readings = Array.from({ length: READINGS + 1 }, (_, i) => (top_V * i) / READINGS)
  const dotsOf = (curve: PanelCurve): Dot[] => [
    { x: curve.best.voltage_V, y: curve.best.current_A, isHollow: true },
    ...curve.held.map(({ panel_V, panel_A }) => ({ x: panel_V, y: panel_A })),
  ]
  return (
    <FigureFrame
      name="panel-curve"
      title="The panel, and where it is held"
      caption={`Rings are the best points: ${watts(sun.best.power_W)} in full sun at 25 °C, ${watts(dull.best.power_W)} at ${numberShown(dull.irradiance_W_m2)} W/m² with its cells at ${celsius(dull.cell_C)}. ${heldWords(sun)}`}
      table={heldTable([sun, dull])}
    >
      <div ref={ref}>
        <CurveChart
          label="Current of the panel by voltage, read out"
          width={width}
          height={320}
          x={{ domain: [0, top_V], label: 'volts of the panel', format: (value) => numberShown(value) }}
          y={{ domain: [0, 1.1 * panel.shortCircuit_A], label: 'current', format: amperes }}
          lines={[
            { name: ['full sun'], nameAt: NAME_AT * top_V, pen: 'pen-accent', points: sun.points },
            { name: ['dull day'], nameAt: NAME_AT * top_V, pen: 'pen-cool', points: dull.points },
          ]}
          posts={postsOf(sun.held)}
          dots={[...dotsOf(sun), ...dotsOf(dull)]}
          readings={readings}
          wordsOf={(index) => {
            const at_V = readings[index]
            const current = (curve: PanelCurve) =>
              Math.max(
                0,
                currentAt(parametersAt(fittedPanel(panel), curve.irradiance_W_m2, curve.cell_C), at_V),
              )
            const [inSun, onDull] = [current(sun), current(dull)]
            return `At ${volts(at_V)}: ${amperes(inSun)} and ${watts(inSun * at_V)} in full sun, ${amperes(onDull)} and ${watts(onDull * at_V)} on a dull day.`
          }}
        />
      </div>
    </FigureFrame>
  )
}

/** Where the charger holds the panel in full sun, by the state of the battery. */
function postsOf(held: readonly HeldPoint[]): Post[] {
  const posts: { at: number; batteries: string[] }[] = []
  for (const { panel_V, battery } of held) {
    const same = posts.find(({ at }) => Math.abs(at - panel_V) < SAME_V)
    if (same === undefined) posts.push({ at: panel_V, batteries: [battery] })
    else same.batteries.push(battery)
  }
  return posts.map(({ at, batteries }) => ({
    at,
    text: batteries.length === held.length ? 'whatever the battery' : batteries.join(', '),
  }))
}

function heldWords({ held, best }: PanelCurve): string {
  const half = held[1]
  if (half === undefined) return 'Without a charger nothing holds it anywhere.'
  const place = `With a battery half full (${volts(half.pack_V)} at its terminals) the charger holds the panel at ${volts(half.panel_V)}`
  return `${place}: ${watts(half.power_W)}, ${shareShown(half.power_W / best.power_W)} of its best, and ${amperes(half.cell_A)} into the battery. Dots are where it is held; the names above say with which battery.`
}

function heldTable(curves: readonly PanelCurve[]) {
  return {
    head: [
      'light (W/m²)',
      'panel cells (°C)',
      'point',
      'panel (V)',
      'panel (A)',
      'power (W)',
      'battery (V)',
      'into battery (A)',
    ],
    rows: curves.flatMap(({ irradiance_W_m2, cell_C, open_V, best, points, held }) => {
      const light = [plain(irradiance_W_m2), plain(cell_C)]
      return [
        [...light, 'open circuit', plain(open_V), 0, 0, '', ''],
        [...light, 'short circuit', 0, plain(points[0][1]), 0, '', ''],
        [...light, 'best', plain(best.voltage_V), plain(best.current_A), plain(best.power_W), '', ''],
        ...held.map((point) => [
          ...light,
          `held, battery ${point.battery}`,
          plain(point.panel_V),
          plain(point.panel_A),
          plain(point.power_W),
          plain(point.pack_V),
          plain(point.cell_A),
        ]),
      ]
    }),
  }
}
