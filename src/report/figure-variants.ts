/** Variants side by side as figures: survival or life with its interval, and where a day's charge goes. */
import * as Plot from '@observablehq/plot'
import { counted } from '../quantity/counted.ts'
import { DAYS } from '../sky/calendar.ts'
import type { Figure } from './figure.ts'
import { drawSvg, INK } from './svg.ts'
import type { VariantsReport } from './variants.ts'
import { dayCharge_C, lifeOf, wintersOf } from './variants-terminal.ts'

const ROW_HEIGHT = 34
const NAMES_WIDTH = 190

export const variantFigures = (report: VariantsReport): Figure[] => [
  report.rechargeable ? survivalFigure(report) : livesFigure(report),
  dayFigure(report),
]

function survivalFigure({ variants }: VariantsReport): Figure {
  const rows = variants.map(({ name, outlook }) => ({ name, ...outlook.winters }))
  return intervals({
    id: 'survival',
    title: 'Winters survived',
    caption:
      'Share of winters survived by each variant; the bar is its 95 % interval. All met the same weather with the same draws, so points differ by less luck than the bars suggest: the table of differences says which are real.',
    rows: rows.map(({ name, share, low, high }) => ({ name, at: share, low, high })),
    scale: { label: 'winters survived →', percent: true },
    cells: variants.map(({ name, outlook }) => [name, wintersOf(outlook)]),
    head: ['variant', 'winters of 100 (95 % interval)'],
  })
}

function livesFigure({ variants, years }: VariantsReport): Figure {
  const inYears = (days: number | null) => (days === null ? years : days / DAYS)
  return intervals({
    id: 'lives',
    title: 'How long each lives',
    caption: `Median life of each variant; nine runs in ten end within the bar. A bar that reaches ${counted(years, 'year')} may go on beyond what was played.`,
    rows: variants.map(({ name, outlook: { life } }) => ({
      name,
      at: inYears(life.median_days),
      low: inYears(life.p5_days),
      high: inYears(life.p95_days),
    })),
    scale: { label: 'years →', percent: false },
    cells: variants.map(({ name, outlook }) => [name, lifeOf(outlook)]),
    head: ['variant', 'median life (90 % of runs)'],
  })
}

interface IntervalRows {
  readonly id: string
  readonly title: string
  readonly caption: string
  readonly rows: readonly { name: string; at: number; low: number; high: number }[]
  readonly scale: { readonly label: string; readonly percent: boolean }
  readonly head: readonly string[]
  readonly cells: readonly (readonly string[])[]
}

function intervals({ id, title, caption, rows, scale, head, cells }: IntervalRows): Figure {
  const svg = drawSvg(
    {
      width: 720,
      height: 76 + ROW_HEIGHT * rows.length,
      marginLeft: NAMES_WIDTH,
      marginRight: 24,
      marginBottom: 44,
      x: scale.percent
        ? {
            label: scale.label,
            labelOffset: 40,
            grid: true,
            tickFormat: (s: number) => `${Math.round(100 * s)} %`,
          }
        : { label: scale.label, labelOffset: 40, grid: true, zero: true },
      y: { domain: rows.map(({ name }) => name), label: null, tickSize: 0 },
      marks: [
        Plot.ruleY(rows, { y: 'name', x1: 'low', x2: 'high', stroke: INK.narrow, strokeWidth: 9 }),
        Plot.dot(rows, { y: 'name', x: 'at', r: 4, fill: INK.accent }),
      ],
    },
    title,
  )
  return { id, title, caption, svg, head, rows: cells }
}

function dayFigure({ variants }: VariantsReport): Figure {
  const rows = variants.map(({ name, outlook }) => ({ name, mAh: dayCharge_C(outlook) / 3.6 }))
  const svg = drawSvg(
    {
      width: 720,
      height: 76 + ROW_HEIGHT * rows.length,
      marginLeft: NAMES_WIDTH,
      marginRight: 24,
      marginBottom: 44,
      x: { label: 'charge a day, mAh →', labelOffset: 40, grid: true },
      y: { domain: rows.map(({ name }) => name), label: null, tickSize: 0 },
      marks: [Plot.barX(rows, { y: 'name', x: 'mAh', fill: INK.narrow, insetTop: 8, insetBottom: 8 })],
    },
    'Charge a day of each variant',
  )
  return {
    id: 'day',
    title: "A day's charge",
    caption: 'What a day takes from the cell, self-discharge included.',
    svg,
    head: ['variant', 'mAh a day', 'reports a day'],
    rows: variants.map(({ name, outlook }, i) => [
      name,
      rows[i].mAh.toPrecision(3),
      Number(outlook.reportsPerDay.mean.toPrecision(3)),
    ]),
  }
}
