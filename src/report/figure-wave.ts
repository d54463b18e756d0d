/** The wave of one wake: current over time on a logarithmic scale, each step named. */
import * as Plot from '@observablehq/plot'
import { formatQuantity } from '../quantity/format.ts'
import type { Figure } from './figure.ts'
import type { Forecast } from './forecast.ts'
import { drawSvg, INK } from './svg.ts'

export function waveFigure({ wave, wake }: Forecast): Figure {
  const least = Math.min(...wave.map((s) => s.current_A).filter((a) => a > 0)) / 2
  const corners = wave.flatMap((s) => {
    const current = Math.max(s.current_A, least)
    return [
      { t: s.t0_s, current },
      { t: s.t1_s, current },
    ]
  })
  const widest = wave.reduce((a, b) => (b.t1_s - b.t0_s > a.t1_s - a.t0_s ? b : a))
  const total = wave[wave.length - 1].t1_s
  const named = wave.filter((s) => s.t1_s - s.t0_s > total / 25)
  const svg = drawSvg(
    {
      width: 720,
      height: 260,
      marginLeft: 64,
      x: { label: 'seconds since the wake →', nice: true },
      y: {
        type: 'log',
        label: '↑ current',
        tickFormat: (a: number) => formatQuantity(a, 'current', { digits: 1 }),
        ticks: 5,
        grid: true,
      },
      marks: [
        Plot.areaY(corners, { x: 't', y1: least, y2: 'current', fill: INK.wide }),
        Plot.line(corners, { x: 't', y: 'current', stroke: INK.line, strokeWidth: 1.5 }),
        Plot.text(named, {
          x: (s) => (s.t0_s + s.t1_s) / 2,
          y: (s) => Math.max(s.current_A, least),
          text: 'name',
          dy: -9,
          fill: INK.line,
          stroke: 'none',
        }),
      ],
    },
    'Current over time during one wake',
  )
  return {
    id: 'wave',
    title: 'One wake',
    caption: `One wake lasts ${formatQuantity(wake.duration_s, 'duration', { digits: 3 })} and takes ${formatQuantity(wake.charge_C, 'charge', { digits: 3 })} at the device's rail on average; ${widest.name} is the longest part. Steps at their best values, as if each happened once and at the first try.`,
    svg,
    head: ['part', 'from (s)', 'to (s)', 'current'],
    rows: wave.map((s) => [
      s.name,
      Number(s.t0_s.toPrecision(6)),
      Number(s.t1_s.toPrecision(6)),
      formatQuantity(s.current_A, 'current', { digits: 3 }),
    ]),
  }
}
