/** Columns of pixels out of tiles, beside the samples themselves. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recordingOf } from '../../../recording/memory.ts'
import { spanSamples } from '../../../recording/span-samples.ts'
import { gridAt } from '../../../recording/view.ts'
import { Columns } from './columns.ts'
import { levelFor, rootLevel, tilesAround, tilesIn } from './grid.ts'
import { spanOf, TILE_BUCKETS, type Tile, type TilePlace, tileOf } from './tile.ts'

const INTERVAL_s = 1e-3
const COUNT = 300_000
const SPIKE = 123_457

const current_A = Float32Array.from({ length: COUNT }, (_, i) =>
  i === SPIKE ? 1 : 1e-3 * (1 + 0.1 * Math.sin(i)),
)
const recording = recordingOf(
  { count: COUNT, time_s: null, current_A, voltage_V: null },
  { interval_s: INTERVAL_s },
)
const grid = { interval_s: INTERVAL_s, duration_s: COUNT * INTERVAL_s, even: true }

/** As the server answers. */
function tileAt(place: TilePlace): Tile {
  const span = spanOf(place, INTERVAL_s)
  const samples = spanSamples(recording, span, 2 * TILE_BUCKETS)
  if (samples !== null)
    return tileOf(place, INTERVAL_s, 'samples', joined([samples.from_s, samples.to_s, samples.current_A]))
  const { min_A, max_A, mean_A, covered } = gridAt(recording, TILE_BUCKETS, span)
  return tileOf(place, INTERVAL_s, 'buckets', joined([min_A, max_A, mean_A, covered]))
}

function joined(arrays: readonly (Float32Array | Float64Array)[]): ArrayBuffer {
  const bytes = Buffer.concat(
    arrays.map(({ buffer, byteOffset, byteLength }) => new Uint8Array(buffer, byteOffset, byteLength)),
  )
  return Uint8Array.from(bytes).buffer
}

function columnsAt(window: { from_s: number; to_s: number }, pixels: number): Columns {
  const columns = new Columns()
  columns.begin(window, pixels)
  for (const place of tilesIn(window, levelFor(window, pixels, grid), grid)) {
    const tile = tileAt(place)
    columns.add(tile, tile.from_s, tile.to_s)
  }
  return columns
}

const window = fc
  .tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 1e-5, max: 1, noNaN: true }))
  .map(([at, share]) => {
    const width = grid.duration_s * share
    const from_s = at * (grid.duration_s - width)
    return { from_s, to_s: from_s + width }
  })

describe('columns of pixels', () => {
  it('hold a spike of one sample wherever it is in sight, at its place, and nowhere else', () => {
    const spike_s = SPIKE * INTERVAL_s
    fc.assert(
      fc.property(window, fc.integer({ min: 50, max: 900 }), ({ from_s, to_s }, pixels) => {
        const { max_A } = columnsAt({ from_s, to_s }, pixels)
        const found = max_A.slice(0, pixels).indexOf(1)
        const last = max_A.slice(0, pixels).lastIndexOf(1)
        const perPixel = (to_s - from_s) / pixels
        const [start, end] = [(spike_s - from_s) / perPixel, (spike_s + INTERVAL_s - from_s) / perPixel]
        // A bucket is a pixel wide at most, its edge off by a quarter of it; one on an edge counts for both sides.
        const isInSight = end > 2 && start < pixels - 2
        if (isInSight) expect(found).toBeGreaterThanOrEqual(0)
        if (found >= 0) {
          expect(found).toBeGreaterThan(start - 2.5)
          expect(last).toBeLessThan(end + 2.5)
        }
      }),
      { numRuns: 60, seed: 7 },
    )
  })

  it('from near are the samples themselves, each as long as it is held', () => {
    const columns = columnsAt({ from_s: 123.4, to_s: 123.5 }, 1000)
    for (let column = 0; column < 1000; column++) {
      const sample = Math.floor((123.4 + ((column + 0.5) * 0.1) / 1000) / INTERVAL_s)
      expect(columns.min_A[column]).toBeLessThanOrEqual(current_A[sample])
      expect(columns.max_A[column]).toBeGreaterThanOrEqual(current_A[sample])
    }
    // Ten pixels a sample: in the middle of its hold there is nothing but it.
    expect(columns.mean_A(555)).toBe(current_A[123_455])
  })

  it('have the mean of what lies in them', () => {
    const columns = columnsAt({ from_s: 0, to_s: 100 }, 500)
    let charge = 0
    for (let column = 0; column < 500; column++) charge += columns.mean_A(column)
    const direct = current_A.subarray(0, 100_000).reduce((sum, x) => sum + x, 0) / 100_000
    expect(Math.abs(charge / 500 / direct - 1)).toBeLessThan(2e-3)
  })
})

describe('the grid', () => {
  it('covers every window without a gap, with buckets no wider than a pixel', () => {
    fc.assert(
      fc.property(window, fc.integer({ min: 50, max: 5000 }), ({ from_s, to_s }, pixels) => {
        const level = levelFor({ from_s, to_s }, pixels, grid)
        const places = tilesIn({ from_s, to_s }, level, grid)
        const spans = places.map((place) => spanOf(place, INTERVAL_s))
        expect(spans[0].from_s).toBeLessThanOrEqual(from_s)
        expect(spans.at(-1)!.to_s).toBeGreaterThanOrEqual(Math.min(to_s, grid.duration_s))
        spans.slice(1).forEach((span, k) => {
          expect(span.from_s).toBe(spans[k].to_s)
        })
        if (level > 0) expect(INTERVAL_s * 2 ** level).toBeLessThanOrEqual((to_s - from_s) / pixels)
        expect(places.length).toBeLessThanOrEqual(2 * Math.ceil(pixels / TILE_BUCKETS) + 2)
      }),
    )
  })

  it('has one tile for the whole, and looks ahead without end neither here nor there', () => {
    const root = spanOf({ level: rootLevel(grid), index: 0 }, INTERVAL_s)
    expect(root.to_s).toBeGreaterThanOrEqual(grid.duration_s)
    const ahead = tilesAround({ from_s: 10, to_s: 20 }, levelFor({ from_s: 10, to_s: 20 }, 1000, grid), grid)
    expect(ahead.length).toBeLessThan(64)
    for (const { index } of ahead) expect(index).toBeGreaterThanOrEqual(0)
  })
})
