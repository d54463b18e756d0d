/** Where on the drawing of a trace what stands, in CSS pixels. Pure. */
import type { Window } from './window.ts'

export interface Layout {
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  /** Head and foot of the trace itself. */
  readonly top: number
  readonly bottom: number
  /** Of each row of states; the first begins under the trace. */
  readonly row: number
}

const HEAD = 24
const ROW = 15
const ROWS_GAP = 8
const AXIS = 42
/** A wide drawing may be higher. */
const SHAPE = 0.33
const PLOT = { least: 190, most: 330 }

export function layoutFor(width: number, rows: number): Layout {
  const plot = Math.round(Math.min(Math.max(width * SHAPE, PLOT.least), PLOT.most))
  const rowsHeight = rows === 0 ? 0 : ROWS_GAP + rows * ROW
  return {
    width,
    left: width < 500 ? 52 : 64,
    right: rows === 0 ? 10 : 22,
    top: HEAD,
    bottom: HEAD + plot,
    row: ROW,
    height: HEAD + plot + rowsHeight + AXIS,
  }
}

export const plotWidth = ({ width, left, right }: Layout): number => width - left - right

export const rowTop = ({ bottom, row }: Layout, k: number): number => bottom + ROWS_GAP + k * row

export function xOf(layout: Layout, { from_s, to_s }: Window, time_s: number): number {
  return layout.left + ((time_s - from_s) / (to_s - from_s)) * plotWidth(layout)
}

/** Beyond the edges as well. */
export function timeAt(layout: Layout, { from_s, to_s }: Window, x: number): number {
  return from_s + ((x - layout.left) / plotWidth(layout)) * (to_s - from_s)
}
