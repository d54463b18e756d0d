/** Names written above what they name: in rows, none over another, none across another's leader. */

export interface Wanted {
  readonly text: string
  /** Where its leader goes down to. */
  readonly x: number
  /** Those that weigh more are placed first. */
  readonly weight: number
}

export interface Placed extends Wanted {
  /** In the order in which they were asked for. */
  readonly index: number
  readonly left: number
  readonly width: number
  /** 0 is the lowest. */
  readonly row: number
}

/** A letter's usual width at 13 px, so that a name may be a little shorter than its room, hardly longer. */
const LETTER_px = 6.9
const GAP_px = 10

export interface Room {
  readonly left: number
  readonly right: number
  readonly rows: number
}

/** What has no room is left out: it can be read in the figure's table. */
export function labelRows(wanted: readonly Wanted[], room: Room): Placed[] {
  const placed: Placed[] = []
  const byWeight = wanted.map((each, index) => ({ ...each, index })).sort((a, b) => b.weight - a.weight)
  for (const each of byWeight) {
    const width = each.text.length * LETTER_px
    if (width > room.right - room.left) continue
    const left = Math.max(room.left, Math.min(room.right - width, each.x - width / 2))
    for (let row = 0; row < room.rows; row++) {
      const label = { ...each, left, width, row }
      if (placed.some((other) => areInTheWay(label, other) || areInTheWay(other, label))) continue
      placed.push(label)
      break
    }
  }
  return placed
}

function areInTheWay(upper: Placed, lower: Placed): boolean {
  if (upper.row === lower.row)
    return upper.left < lower.left + lower.width + GAP_px && lower.left < upper.left + upper.width + GAP_px
  return upper.row > lower.row && upper.x > lower.left - 3 && upper.x < lower.left + lower.width + 3
}
