/** Charge left as a fan of bands: nine in ten, half, and the middle; and the axis it stands on. */
import * as Plot from '@observablehq/plot'
import type { StateBand } from '../outlook/outlook.ts'
import { INK } from './svg.ts'

export type PlacedBand = StateBand & { readonly x: number }

export const CHARGE_AXIS = {
  domain: [0, 1],
  label: '↑ charge left',
  tickFormat: (share: number) => `${Math.round(100 * share)} %`,
  grid: true,
  ticks: 5,
} satisfies Plot.ScaleOptions

export const chargeFan = (points: readonly PlacedBand[]) => [
  Plot.areaY(points, { x: 'x', y1: 'p5', y2: 'p95', fill: INK.wide }),
  Plot.areaY(points, { x: 'x', y1: 'p25', y2: 'p75', fill: INK.narrow }),
  Plot.line(points, { x: 'x', y: 'p50', stroke: INK.line, strokeWidth: 1.5 }),
]

/** Quantiles of a band for the table behind a figure. */
export const bandCells = (b: StateBand): string[] =>
  [b.p5, b.p25, b.p50, b.p75, b.p95].map((s) => `${Math.round(100 * s)} %`)

export const BAND_HEAD = ['5 %', '25 %', 'middle', '75 %', '95 %']
