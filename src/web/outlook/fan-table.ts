/** The numbers behind a fan. */
import type { FigureTable } from '../figure/figure-table.ts'
import { shareShown } from '../look/shown.ts'
import type { FanPoint } from './fan.tsx'

export function fanTable(
  points: readonly FanPoint[],
  name: string,
  nameOf: (point: FanPoint) => string,
  every: number,
): FigureTable {
  return {
    head: [name, '5 %', '25 %', 'middle', '75 %', '95 %'],
    rows: points
      .filter((_, i) => i % every === 0)
      .map((point) => [
        nameOf(point),
        ...[point.p5, point.p25, point.p50, point.p75, point.p95].map((share) => shareShown(share)),
      ]),
  }
}
