/**
 * A tile: a stretch of the recording as the server answers for it, in buckets, or in samples where few are in it. Tiles of
 * level k have buckets of 2^k usual intervals; tile i of a level begins at bucket i · TILE_BUCKETS. Times in s, currents in A.
 */
export const TILE_BUCKETS = 1024

export interface TilePlace {
  readonly level: number
  readonly index: number
}

export type Tile = TilePlace & {
  readonly from_s: number
  readonly to_s: number
} & (
    | {
        readonly holds: 'buckets'
        /** NaN where nothing is known. */
        readonly min_A: Float32Array
        readonly max_A: Float32Array
        readonly mean_A: Float32Array
        /** Share of the time of each bucket. */
        readonly covered: Float32Array
      }
    | {
        readonly holds: 'samples'
        readonly starts_s: Float64Array
        readonly ends_s: Float64Array
        readonly current_A: Float64Array
      }
  )

export type TileKey = `${number}/${number}`

export const tileKey = ({ level, index }: TilePlace): TileKey => `${level}/${index}`

export const bucketOf = (level: number, interval_s: number): number => interval_s * 2 ** level

export function spanOf({ level, index }: TilePlace, interval_s: number) {
  const tile_s = TILE_BUCKETS * bucketOf(level, interval_s)
  return { from_s: index * tile_s, to_s: (index + 1) * tile_s }
}

export function tileOf(place: TilePlace, interval_s: number, holds: string | null, bytes: ArrayBuffer): Tile {
  const span = spanOf(place, interval_s)
  if (holds === 'samples') {
    const values = new Float64Array(bytes)
    const count = values.length / 3
    return {
      ...place,
      ...span,
      holds,
      starts_s: values.subarray(0, count),
      ends_s: values.subarray(count, 2 * count),
      current_A: values.subarray(2 * count),
    }
  }
  const values = new Float32Array(bytes)
  const part = (k: number) => values.subarray(k * TILE_BUCKETS, (k + 1) * TILE_BUCKETS)
  return {
    ...place,
    ...span,
    holds: 'buckets',
    min_A: part(0),
    max_A: part(1),
    mean_A: part(2),
    covered: part(3),
  }
}
