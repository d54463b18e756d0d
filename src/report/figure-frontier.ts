/** The frontier as a figure: smallest panel over cell, a line for each interval. */
import * as Plot from '@observablehq/plot'
import type { Figure } from './figure.ts'
import type { SizingReport } from './sizing.ts'
import { duration } from './sizing-words.ts'
import { drawSvg, INK } from './svg.ts'

/** Null without a panel, where there is no frontier to draw. */
export function frontierFigure({ frontier, study, rechargeable }: SizingReport): Figure | null {
  if (!rechargeable) return null
  const { smallest } = study.frontier
  const points = smallest.flatMap((row, i) =>
    row.flatMap((sized, c) =>
      sized?.panel_W == null
        ? []
        : [
            {
              mAh: frontier.capacities_C[c] / 3.6,
              mW: 1000 * sized.panel_W,
              interval: nameOf(frontier.intervals_s[i]),
            },
          ],
    ),
  )
  const lines = [...new Set(points.map(({ interval }) => interval))]
  const ends = lines.map((name) => points.filter(({ interval }) => interval === name)[0])
  const svg = drawSvg(
    {
      width: 720,
      height: 360,
      marginLeft: 56,
      marginRight: 24,
      insetTop: 28,
      insetLeft: 10,
      x: { type: 'log', label: 'cell, mAh →', grid: true, ticks: 6 },
      y: { type: 'log', label: '↑ smallest panel, mW', grid: true, ticks: 6 },
      marks: [
        Plot.line(points, {
          x: 'mAh',
          y: 'mW',
          z: 'interval',
          stroke: INK.line,
          strokeWidth: 1.4,
          curve: 'step-after',
        }),
        Plot.dot(points, { x: 'mAh', y: 'mW', r: 2.5, fill: INK.accent }),
        Plot.text(ends, {
          x: 'mAh',
          y: 'mW',
          text: 'interval',
          dy: -9,
          textAnchor: 'start',
          fill: INK.accent,
        }),
      ],
    },
    'Smallest panel for each cell and interval',
  )
  return {
    id: 'frontier',
    title: 'The frontier of cell, panel and interval',
    caption:
      'For each cell the smallest panel that suffices, a line for each interval between wakes: everything on a line or above and to the right of it will do. A line begins at the smallest cell for which the largest panel tried is enough.',
    svg,
    head: ['interval', ...frontier.capacities_C.map((c) => `${Number((c / 3.6).toPrecision(4))} mAh`)],
    rows: smallest.map((row, i) => [
      nameOf(frontier.intervals_s[i]),
      ...row.map((sized) =>
        sized?.panel_W == null ? '–' : `${Number((1000 * sized.panel_W).toPrecision(4))} mW`,
      ),
    ]),
  }
}

const nameOf = (interval_s: number | null): string =>
  interval_s === null ? 'as written' : duration(interval_s)
