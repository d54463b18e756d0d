/**
 * The trace as it is being looked at: which window of which recording, drawn anew whenever something changed, once a frame
 * at most. It lives beside React, which hears of it when it comes to rest.
 */
import type { StateBands } from '../../../report/recording-reading.ts'
import { canvasPen } from './canvas-pen.ts'
import { Columns } from './columns.ts'
import {
  type CurrentScale,
  currentScale,
  type Extent,
  extentInSteps,
  type ScaleKind,
} from './current-scale.ts'
import { drawTrace, type Scene, type StateRow } from './draw.ts'
import { levelFor, rootLevel, tilesAround, tilesIn } from './grid.ts'
import { type Layout, layoutFor, plotWidth, timeAt } from './layout.ts'
import { type Ink, inkOf } from './pen.ts'
import { svgPen } from './svg-pen.ts'
import { type Source, Tiles } from './tiles.ts'
import { fitted, type Limits, type Window } from './window.ts'

export interface Shown {
  readonly width: number
  readonly scale: ScaleKind
  /** The height fits what is in sight, not the whole. */
  readonly fits: boolean
  readonly extent: Extent
  readonly states: readonly StateRow[]
  readonly bands: StateBands | null
  readonly notes: readonly Window[]
  readonly chosen: number | null
  readonly hasMiddle: boolean
}

export interface Listening {
  /** It came to rest. */
  readonly onSettled: (window: Window) => void
  /** More of what is in sight came from the server, and no more for a moment. */
  readonly onFilled: () => void
  /** It was drawn: what stands over the drawing moves with it. */
  readonly onDrawn: (window: Window, layout: Layout) => void
  readonly onRefusal: (why: string) => void
}

/** So long nothing moves before the rest of the page follows. */
const SETTLE_MS = 200

export class TraceDesk {
  readonly limits: Limits
  private readonly source: Source
  private readonly canvas: HTMLCanvasElement
  private readonly listening: Listening
  private readonly tiles: Tiles
  private readonly columns = new Columns()
  private now: Window
  private shown: Shown
  private ink: Ink
  private frame = 0
  private settling: ReturnType<typeof setTimeout> | undefined
  private filling: ReturnType<typeof setTimeout> | undefined

  constructor(canvas: HTMLCanvasElement, source: Source, shown: Shown, window: Window, listening: Listening) {
    const { grid } = source
    this.source = source
    this.canvas = canvas
    this.listening = listening
    this.shown = shown
    this.limits = { duration_s: grid.duration_s, shortest_s: grid.interval_s * (grid.even ? 4 : 0.01) }
    this.now = fitted(window, this.limits)
    this.tiles = new Tiles(source, () => this.take(), listening.onRefusal)
    this.ink = inkOf(canvas)
    this.redraw()
  }

  get window(): Window {
    return this.now
  }

  get layout(): Layout {
    return layoutFor(this.shown.width, this.shown.states.length)
  }

  /** Moves to it, cut to the recording. */
  move(window: Window): void {
    this.now = fitted(window, this.limits)
    this.redraw()
    clearTimeout(this.settling)
    this.settling = setTimeout(() => this.listening.onSettled(this.now), SETTLE_MS)
  }

  show(change: Partial<Shown>): void {
    this.shown = { ...this.shown, ...change }
    this.redraw()
  }

  /** The page's colours are others. */
  recolour(): void {
    this.ink = inkOf(this.canvas)
    this.draw()
  }

  redraw(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.draw())
  }

  close(): void {
    cancelAnimationFrame(this.frame)
    clearTimeout(this.settling)
    clearTimeout(this.filling)
    this.tiles.close()
  }

  /** What lies under a place of the drawing; null where nothing is known there. */
  readAt(x: number): {
    readonly time_s: number
    readonly min_A: number
    readonly max_A: number
    readonly mean_A: number
  } | null {
    const { layout, columns } = this
    const column = Math.floor(((x - layout.left) / plotWidth(layout)) * columns.count)
    if (column < 0 || column >= columns.count || Number.isNaN(columns.min_A[column])) return null
    return {
      time_s: timeAt(layout, this.now, x),
      min_A: columns.min_A[column],
      max_A: columns.max_A[column],
      mean_A: columns.mean_A(column),
    }
  }

  /** As it stands now. */
  svg(label: string): string {
    const scene = this.scene(plotWidth(this.layout), new Columns())
    const { width, height } = scene.layout
    const pen = svgPen(width, height, this.ink.words, this.ink.paper, label)
    drawTrace(pen, this.ink, scene)
    return pen.finish()
  }

  /** In `count` steps: where each begins, its lowest, mean and highest current. */
  table(
    count: number,
  ): { readonly from_s: number; readonly min_A: number; readonly mean_A: number; readonly max_A: number }[] {
    const columns = new Columns()
    this.fill(count, columns)
    const step_s = (this.now.to_s - this.now.from_s) / count
    return Array.from({ length: count }, (_, k) => ({
      from_s: this.now.from_s + k * step_s,
      min_A: columns.min_A[k],
      mean_A: columns.mean_A(k),
      max_A: columns.max_A[k],
    }))
  }

  private take(): void {
    this.redraw()
    clearTimeout(this.filling)
    this.filling = setTimeout(() => this.listening.onFilled(), SETTLE_MS)
  }

  private draw(): void {
    cancelAnimationFrame(this.frame)
    this.frame = 0
    const { layout } = this
    const pixels = Math.max(Math.round(plotWidth(layout) * devicePixelRatio), 1)
    this.sizeTo(layout)
    const scene = this.scene(pixels, this.columns)
    drawTrace(canvasPen(this.canvas, this.ink.words), this.ink, scene)
    this.listening.onDrawn(this.now, layout)
    const { grid } = this.source
    const level = levelFor(this.now, pixels, grid)
    const root = { level: rootLevel(grid), index: 0 }
    this.tiles.want([root, ...tilesIn(this.now, level, grid), ...tilesAround(this.now, level, grid)])
  }

  private scene(pixels: number, columns: Columns): Scene {
    this.fill(pixels, columns)
    const { shown, now, layout } = this
    const { states, bands, notes, chosen, hasMiddle } = shown
    return {
      layout,
      window: now,
      scale: this.scale(columns),
      columns,
      states,
      bands,
      notes,
      chosen,
      hasMiddle,
    }
  }

  private fill(count: number, columns: Columns): void {
    const { grid } = this.source
    columns.begin(this.now, count)
    for (const place of tilesIn(this.now, levelFor(this.now, count, grid), grid))
      this.tiles.eachPart(place, (tile, from_s, to_s) => columns.add(tile, from_s, to_s))
  }

  private scale(columns: Columns): CurrentScale {
    const { scale, fits, extent } = this.shown
    return currentScale(scale, fits ? (extentIn(columns) ?? extent) : extent)
  }

  private sizeTo({ width, height }: Layout): void {
    const wide = Math.round(width * devicePixelRatio)
    const high = Math.round(height * devicePixelRatio)
    if (this.canvas.width !== wide || this.canvas.height !== high) {
      this.canvas.width = wide
      this.canvas.height = high
      this.canvas.style.width = `${width}px`
      this.canvas.style.height = `${height}px`
    }
  }
}

/** Null where nothing is known. */
function extentIn({ count, min_A, max_A }: Columns): Extent | null {
  let [low, high, least] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  for (let k = 0; k < count; k++) {
    if (min_A[k] < low) low = min_A[k]
    if (max_A[k] > high) high = max_A[k]
    if (min_A[k] > 0 && min_A[k] < least) least = min_A[k]
  }
  if (high < low) return null
  return extentInSteps({ min_A: low, usual_A: Number.isFinite(least) ? least : 0, max_A: high })
}
