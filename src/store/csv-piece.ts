/** A text file in pieces of whole lines: a piece holds the lines that start in it, wherever the last of them ends. */
import { readSync } from 'node:fs'

/** Small enough that the pieces of all threads and the rows read from them stay well below 200 MB together. */
export const PIECE_BYTES = 1 << 21
/** Bytes read beyond a piece for the rest of its last line, at first; then ever more, up to another piece. */
const BEYOND = 1 << 12
const LINE_END = 10

export interface Piece {
  readonly start: number
  /** At most `PIECE_BYTES` later. */
  readonly end: number
  /** Whether a line starts with the piece, whatever stands before it. */
  readonly first: boolean
}

export interface Lines {
  readonly bytes: Uint8Array
  readonly from: number
  readonly to: number
}

/** Reads one piece after the other into the same buffer. */
export class PieceReader {
  private bytes = new Uint8Array(PIECE_BYTES + BEYOND + 2)
  private readonly fd: number

  constructor(fd: number) {
    this.fd = fd
  }

  /** The lines of a piece, until the next call. The last line gets its end where the file lacks it. */
  read({ start, end, first }: Piece): Lines {
    // The byte before the piece tells whether a line starts with it.
    const origin = first ? start : start - 1
    const inside = end - origin
    let filled = this.fill(origin, 0, inside + BEYOND)
    const from = first ? 0 : this.afterLineEnd(0, filled)
    if (from === null || from >= Math.min(inside, filled)) return { bytes: this.bytes, from: 0, to: 0 }
    for (let beyond = BEYOND; ; beyond *= 2) {
      const to = this.afterLineEnd(inside - 1, filled)
      if (to !== null) return { bytes: this.bytes, from, to }
      if (filled < inside + beyond) break
      if (beyond >= PIECE_BYTES) throw new Error('no line ends within 2 MB; this is not a table of text')
      filled = this.fill(origin, filled, inside + 2 * beyond)
    }
    this.bytes[filled] = LINE_END
    return { bytes: this.bytes, from, to: filled + 1 }
  }

  /** Reads on from `filled` bytes after `origin` until there are `wanted` or the file ends; how many there are. */
  private fill(origin: number, filled: number, wanted: number): number {
    if (wanted >= this.bytes.length) {
      const longer = new Uint8Array(wanted + 1)
      longer.set(this.bytes)
      this.bytes = longer
    }
    for (let got = -1; filled < wanted && got !== 0; filled += got)
      got = readSync(this.fd, this.bytes, filled, wanted - filled, origin + filled)
    return filled
  }

  /** Place after the first end of line from `at` on; null where there is none before `filled`. */
  private afterLineEnd(at: number, filled: number): number | null {
    const found = this.bytes.indexOf(LINE_END, at)
    return found < 0 || found >= filled ? null : found + 1
  }
}
