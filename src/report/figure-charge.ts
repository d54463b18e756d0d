/** Where a day's charge goes, as one long bar. */
import * as Plot from '@observablehq/plot'
import { inUnit } from '../quantity/format.ts'
import { formatMeasured } from '../quantity/measured.ts'
import { dayUnit } from './day-unit.ts'
import type { Figure } from './figure.ts'
import type { Forecast } from './forecast.ts'
import { drawSvg, INK } from './svg.ts'

/** Tints of one hue, told apart by lightness, with a line between; names stand beside, so colour carries no meaning. */
const TINTS = ['#9a3f1d', '#c9a882', '#6f5846', '#e3d3bd', '#b5734f', '#a99c8c']

export function chargeFigure({ outlook }: Forecast): Figure {
  const parts = outlook.budget.filter((p) => p.charge_C > 0).sort((a, b) => b.charge_C - a.charge_C)
  const total = parts.reduce((sum, p) => sum + p.charge_C, 0)
  const unit = dayUnit(total)
  let end = 0
  const laid = parts.map((part, i) => {
    const start = end
    end += part.charge_C / total
    return { ...part, start, end, share: part.charge_C / total, tint: TINTS[i % TINTS.length] }
  })
  const named = laid.filter((p) => p.share > 0.06)
  const svg = drawSvg(
    {
      width: 720,
      height: 92,
      marginTop: 26,
      marginBottom: 30,
      marginLeft: 12,
      marginRight: 12,
      x: { domain: [0, 1], label: null, tickFormat: (s: number) => `${Math.round(100 * s)} %`, ticks: 5 },
      y: { axis: null },
      marks: [
        Plot.rectX(laid, {
          x1: 'start',
          x2: 'end',
          y1: 0,
          y2: 1,
          fill: (d) => d.tint,
          stroke: 'var(--paper, #faf6ee)',
        }),
        Plot.text(named, {
          x: (d) => (d.start + d.end) / 2,
          y: 1,
          text: (d) => fitted(d.name, d.share),
          dy: -9,
          fill: INK.line,
        }),
      ],
    },
    "Where a day's charge goes",
  )
  const [first] = laid
  return {
    id: 'charge',
    title: "Where a day's charge goes",
    caption: `The cell gives ${inUnit(total, unit, 3)} a day; ${first.name} takes ${Math.round(100 * first.share)} % of it. Behind ± stands twice the standard uncertainty, which comes from the tolerances in the file.`,
    svg,
    head: ['part', 'charge a day', 'share'],
    rows: laid.map((p) => [
      p.name,
      formatMeasured(p.charge_C, p.u_C, 'charge', unit),
      `${(100 * p.share).toFixed(1)} %`,
    ]),
  }
}

const fitted = (name: string, share: number) => {
  const room = Math.floor((share * 696) / 7)
  return name.length <= room ? name : `${name.slice(0, Math.max(room - 1, 1))}…`
}
