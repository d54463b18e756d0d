/** The tiles of one recording: those asked for lately are kept, those wanted now are fetched first, others ahead. */
import { answerOf } from '../../server/ask.ts'
import { childrenOf, type Grid, parentOf, rootLevel } from './grid.ts'
import { spanOf, TILE_BUCKETS, type Tile, type TileKey, type TilePlace, tileKey, tileOf } from './tile.ts'

/** About 16 kB each. */
const MOST_KEPT = 800
/** Browsers open six connections to a server; pages have other questions as well. */
const AT_ONCE = 3

export interface Source {
  /** `file=…&rate=…` of the recording. */
  readonly query: string
  readonly grid: Grid
}

export class Tiles {
  private readonly kept = new Map<TileKey, Tile>()
  private readonly underWay = new Map<TileKey, AbortController>()
  private wanted: readonly TilePlace[] = []
  private readonly source: Source
  private readonly onArrival: () => void
  private readonly onRefusal: (why: string) => void

  constructor(source: Source, onArrival: () => void, onRefusal: (why: string) => void) {
    this.source = source
    this.onArrival = onArrival
    this.onRefusal = onRefusal
  }

  /** Calls `use` with what is here of a place, from the nearest level that has it, and the times between which it holds. */
  eachPart(place: TilePlace, use: (tile: Tile, from_s: number, to_s: number) => void): void {
    const { from_s, to_s } = spanOf(place, this.source.grid.interval_s)
    const own = this.find(place) ?? null
    if (own !== null) use(own, from_s, to_s)
    else if (!this.fromBelow(place, 2, use)) this.fromAbove(place, from_s, to_s, use)
  }

  /** Itself, or samples of a coarser tile, which are as fine as anything can be. */
  private find(place: TilePlace): Tile | undefined {
    const own = this.keptAt(place)
    if (own !== undefined) return own
    const root = rootLevel(this.source.grid)
    for (let above = place; above.level < root; ) {
      above = parentOf(above)
      const tile = this.keptAt(above)
      if (tile?.holds === 'samples') return tile
      if (tile !== undefined) return undefined
    }
    return undefined
  }

  private fromBelow(
    place: TilePlace,
    depth: number,
    use: (tile: Tile, from_s: number, to_s: number) => void,
  ): boolean {
    if (depth === 0) return false
    const children = childrenOf(place)
    const isThere = (child: TilePlace): boolean =>
      this.kept.has(tileKey(child)) ||
      (depth > 1 && childrenOf(child).every((each) => this.kept.has(tileKey(each))))
    const { duration_s, interval_s } = this.source.grid
    const inside = children.filter((child) => spanOf(child, interval_s).from_s < duration_s)
    if (!inside.every(isThere)) return false
    for (const child of inside) this.eachPart(child, use)
    return true
  }

  private fromAbove(
    place: TilePlace,
    from_s: number,
    to_s: number,
    use: (tile: Tile, from_s: number, to_s: number) => void,
  ): void {
    const root = rootLevel(this.source.grid)
    for (let above = place; above.level < root; ) {
      above = parentOf(above)
      const tile = this.keptAt(above)
      if (tile === undefined) continue
      use(tile, from_s, to_s)
      return
    }
  }

  private keptAt(place: TilePlace): Tile | undefined {
    const key = tileKey(place)
    const tile = this.kept.get(key)
    if (tile !== undefined) {
      this.kept.delete(key)
      this.kept.set(key, tile)
    }
    return tile
  }

  /** In the order in which they are wanted; what is under way and not wanted any more is given up. */
  want(places: readonly TilePlace[]): void {
    this.wanted = places.filter((place) => this.find(place) === undefined)
    const keys = new Set(this.wanted.map(tileKey))
    for (const [key, controller] of this.underWay) if (!keys.has(key)) controller.abort()
    this.fetchNext()
  }

  /** All that was wanted is here. */
  get isComplete(): boolean {
    return this.wanted.length === 0 && this.underWay.size === 0
  }

  close(): void {
    this.wanted = []
    for (const controller of this.underWay.values()) controller.abort()
  }

  private fetchNext(): void {
    for (const place of this.wanted) {
      if (this.underWay.size >= AT_ONCE) return
      if (!this.underWay.has(tileKey(place))) void this.fetch(place)
    }
  }

  private async fetch(place: TilePlace): Promise<void> {
    const key = tileKey(place)
    const controller = new AbortController()
    this.underWay.set(key, controller)
    try {
      const tile = await this.tileAt(place, controller.signal)
      this.kept.set(key, tile)
      for (const oldest of this.kept.keys()) if (this.kept.size > MOST_KEPT) this.kept.delete(oldest)
      this.onArrival()
      this.wanted = this.wanted.filter((each) => tileKey(each) !== key)
    } catch (error) {
      // One that was given up may be wanted again by now; where the server refuses one, it refuses all.
      if (!controller.signal.aborted) {
        this.wanted = []
        this.onRefusal((error as Error).message)
      }
    } finally {
      this.underWay.delete(key)
      this.fetchNext()
    }
  }

  private async tileAt(place: TilePlace, signal: AbortSignal): Promise<Tile> {
    const { query, grid } = this.source
    const { from_s, to_s } = spanOf(place, grid.interval_s)
    const address = `/api/recording/view?${query}&from=${from_s}&to=${to_s}&buckets=${TILE_BUCKETS}&exact=yes`
    const answer = await answerOf(address, { signal })
    return tileOf(place, grid.interval_s, answer.headers.get('x-holds'), await answer.arrayBuffer())
  }
}
