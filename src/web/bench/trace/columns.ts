/**
 * What is drawn: for each column of pixels the least, the most and the mean current of whatever lies in it. A bucket on an
 * edge counts for both sides, so that a spike of one sample is seen at any zoom. Arrays are used again from one frame to
 * the next, as a frame has no time to spare.
 */
import type { Tile } from './tile.ts'
import type { Window } from './window.ts'

export class Columns {
  count = 0
  window: Window = { from_s: 0, to_s: 1 }
  /** NaN where nothing is known. */
  min_A = new Float64Array(0)
  max_A = new Float64Array(0)
  /** Sums of current times time, and of time, from which means are. */
  private charge = new Float64Array(0)
  private covered = new Float64Array(0)

  begin(window: Window, count: number): void {
    if (this.min_A.length < count) {
      this.min_A = new Float64Array(count)
      this.max_A = new Float64Array(count)
      this.charge = new Float64Array(count)
      this.covered = new Float64Array(count)
    }
    this.count = count
    this.window = window
    this.min_A.fill(Number.NaN)
    this.max_A.fill(Number.NaN)
    this.charge.fill(0)
    this.covered.fill(0)
  }

  mean_A(column: number): number {
    return this.charge[column] / this.covered[column]
  }

  /** What of a tile lies between two times. */
  add(tile: Tile, from_s: number, to_s: number): void {
    if (tile.holds === 'samples') this.addSamples(tile, from_s, to_s)
    else this.addBuckets(tile, from_s, to_s)
  }

  private addBuckets(tile: Extract<Tile, { holds: 'buckets' }>, from_s: number, to_s: number): void {
    const { min_A, max_A, mean_A, covered } = tile
    const bucket_s = (tile.to_s - tile.from_s) / min_A.length
    const first = Math.max(Math.floor((Math.max(from_s, this.window.from_s) - tile.from_s) / bucket_s), 0)
    const end = Math.min(Math.ceil((Math.min(to_s, this.window.to_s) - tile.from_s) / bucket_s), min_A.length)
    for (let b = first; b < end; b++) {
      if (covered[b] === 0) continue
      const start_s = tile.from_s + b * bucket_s
      this.put(start_s, start_s + bucket_s, min_A[b], max_A[b], mean_A[b], covered[b])
    }
  }

  private addSamples(tile: Extract<Tile, { holds: 'samples' }>, from_s: number, to_s: number): void {
    const { starts_s, ends_s, current_A } = tile
    const left = Math.max(from_s, this.window.from_s)
    const right = Math.min(to_s, this.window.to_s)
    for (let i = 0; i < current_A.length; i++) {
      const x = current_A[i]
      if (ends_s[i] <= left || starts_s[i] >= right || Number.isNaN(x)) continue
      this.put(Math.max(starts_s[i], left), Math.min(ends_s[i], right), x, x, x, 1)
    }
  }

  private put(from_s: number, to_s: number, min: number, max: number, mean: number, share: number): void {
    const perSecond = this.count / (this.window.to_s - this.window.from_s)
    const from = (from_s - this.window.from_s) * perSecond
    const to = (to_s - this.window.from_s) * perSecond
    const last = Math.min(Math.ceil(to), this.count)
    for (let column = Math.max(Math.floor(from), 0); column < last; column++) {
      if (!(this.min_A[column] <= min)) this.min_A[column] = min
      if (!(this.max_A[column] >= max)) this.max_A[column] = max
      const inside = (Math.min(to, column + 1) - Math.max(from, column)) * share
      this.charge[column] += mean * inside
      this.covered[column] += inside
    }
  }
}
