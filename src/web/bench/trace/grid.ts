/** Which tiles a window wants, drawn so many pixels wide. Pure. */
import { bucketOf, TILE_BUCKETS, type TilePlace } from './tile.ts'
import type { Window } from './window.ts'

export interface Grid {
  readonly interval_s: number
  readonly duration_s: number
  /** Evenly sampled: nothing is to be seen below an interval. */
  readonly even: boolean
}

/** Finer than any bucket of an uneven recording: a millionth of its usual interval. */
const FINEST = -20

/** The one tile that holds the whole. */
export function rootLevel({ interval_s, duration_s }: Grid): number {
  return Math.max(Math.ceil(Math.log2(duration_s / interval_s / TILE_BUCKETS)), 0)
}

/** The coarsest level whose buckets are no wider than a pixel. */
export function levelFor({ from_s, to_s }: Window, pixels: number, grid: Grid): number {
  const level = Math.floor(Math.log2((to_s - from_s) / pixels / grid.interval_s))
  return Math.min(Math.max(level, grid.even ? 0 : FINEST), rootLevel(grid))
}

/** From left to right. */
export function tilesIn({ from_s, to_s }: Window, level: number, grid: Grid): TilePlace[] {
  const tile_s = TILE_BUCKETS * bucketOf(level, grid.interval_s)
  const first = Math.max(Math.floor(from_s / tile_s), 0)
  const last = Math.min(Math.floor(to_s / tile_s), Math.floor(grid.duration_s / tile_s))
  return Array.from({ length: Math.max(last - first + 1, 0) }, (_, k) => ({ level, index: first + k }))
}

/** What will most likely be wanted next: to either side, one step out, one step in around the middle. */
export function tilesAround(window: Window, level: number, grid: Grid): TilePlace[] {
  const width = window.to_s - window.from_s
  const beside = [
    { from_s: window.to_s, to_s: window.to_s + width },
    { from_s: window.from_s - width, to_s: window.from_s },
  ].flatMap((side) => tilesIn(side, level, grid))
  const outer = level < rootLevel(grid) ? tilesIn(window, level + 1, grid) : []
  const middle = { from_s: window.from_s + width / 4, to_s: window.to_s - width / 4 }
  const inner = level > (grid.even ? 0 : FINEST) ? tilesIn(middle, level - 1, grid) : []
  return [...outer, ...beside, ...inner]
}

export const parentOf = ({ level, index }: TilePlace): TilePlace => ({
  level: level + 1,
  index: Math.floor(index / 2),
})

export const childrenOf = ({ level, index }: TilePlace): readonly [TilePlace, TilePlace] => [
  { level: level - 1, index: 2 * index },
  { level: level - 1, index: 2 * index + 1 },
]
