/** The numbers behind a fan: charge left, in percent. */
import { type FigureTable, plain } from '../figure/figure-table.ts'
import type { FanPoint } from './fan.tsx'

export function fanTable(
  points: readonly FanPoint[],
  name: string,
  nameOf: (point: FanPoint) => string,
  every: number,
): FigureTable {
  return {
    head: [name, '5 % below (%)', '25 % below (%)', 'middle (%)', '75 % below (%)', '95 % below (%)'],
    rows: points
      .filter((_, i) => i % every === 0)
      .map((point) => [
        nameOf(point),
        ...[point.p5, point.p25, point.p50, point.p75, point.p95].map((share) => plain(100 * share, 3)),
      ]),
  }
}
