/** How long it lives: runs by the month of their death, and charge over the whole life. */
import * as Plot from '@observablehq/plot'
import type { Outlook } from '../outlook/outlook.ts'
import { lifeInWords } from '../outlook/verdict.ts'
import { counted } from '../quantity/counted.ts'
import { BAND_HEAD, bandCells, CHARGE_AXIS, chargeFan } from './charge-fan.ts'
import type { Figure } from './figure.ts'
import { drawSvg, INK } from './svg.ts'

export function lifeFigure(outlook: Outlook): Figure {
  const { lifeByMonth, runs, years, life, aliveAfterYears } = outlook
  const bars = lifeByMonth.map((deaths, month) => ({ year: month / 12, share: deaths / runs }))
  const alive = aliveAfterYears.map((share, year) => ({ year, share }))
  const top = Math.max(...bars.map((b) => b.share), 1e-9)
  const svg = drawSvg(
    {
      width: 720,
      height: 260,
      marginLeft: 48,
      x: { domain: [0, years], label: 'years since it was left there →' },
      y: { ...CHARGE_AXIS, label: '↑ runs still alive' },
      marks: [
        Plot.rectY(bars, {
          x1: 'year',
          x2: (b) => b.year + 1 / 12,
          y1: 0,
          y2: (b) => (b.share / top) * 0.6,
          fill: INK.narrow,
        }),
        Plot.line(alive, { x: 'year', y: 'share', stroke: INK.line, strokeWidth: 1.5, curve: 'linear' }),
        ...(life.median_days === null
          ? []
          : [Plot.ruleX([life.median_days / 365], { stroke: INK.accent, strokeDasharray: '4 3' })]),
      ],
    },
    'Runs still alive over the years',
  )
  const median =
    life.median_days === null
      ? `More than half outlive the ${counted(years, 'year')} played.`
      : `Half have died after ${lifeInWords(life.median_days)} (dashed).`
  return {
    id: 'life',
    title: 'How long it lives',
    caption: `The line is the share of runs still alive, the bars the months in which runs died first (tallest: ${(100 * top).toPrecision(2)} % of runs). ${median}`,
    svg,
    head: ['years', 'still alive'],
    rows: alive.map((a) => [a.year, `${(100 * a.share).toFixed(1)} %`]),
  }
}

export function dischargeFigure(outlook: Outlook): Figure {
  const points = outlook.byWeek.map((b) => ({ ...b, x: (b.at * 7) / 365 }))
  const svg = drawSvg(
    {
      width: 720,
      height: 260,
      marginLeft: 48,
      x: {
        domain: [0, Math.max(1, points.length === 0 ? 1 : points[points.length - 1].x)],
        label: 'years since it was left there →',
      },
      y: CHARGE_AXIS,
      marks: chargeFan(points),
    },
    'Charge left over the years',
  )
  return {
    id: 'discharge',
    title: 'Charge over its life',
    caption:
      'Least charge of each week that the cell can give at that temperature, so winters show as dips: nine runs in ten lie in the pale band, half in the darker one, the line is the middle run.',
    svg,
    head: ['years', ...BAND_HEAD],
    rows: points.filter((_, i) => i % 13 === 0).map((b) => [b.x.toFixed(2), ...bandCells(b)]),
  }
}
