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
/** Between a leader and its flag, and between a leader and another's name. */
const FLAG_px = 4
const LEADER_px = 3

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
    const found = places(each, width, room).find((label) =>
      placed.every((other) => !isInTheWay(label, other) && !isInTheWay(other, label)),
    )
    if (found !== undefined) placed.push(found)
  }
  return placed
}

/** Above its leader, else as a flag to its right or left; the lowest row first. */
function places(label: Wanted & { readonly index: number }, width: number, room: Room): Placed[] {
  const inside = (left: number) => Math.max(room.left, Math.min(room.right - width, left))
  const lefts = [inside(label.x - width / 2), label.x + FLAG_px, label.x - width - FLAG_px].filter(
    (left) => left === inside(left),
  )
  return Array.from({ length: room.rows }, (_, row) =>
    lefts.map((left) => ({ ...label, left, width, row })),
  ).flat()
}

function isInTheWay(upper: Placed, lower: Placed): boolean {
  if (upper.row === lower.row)
    return upper.left < lower.left + lower.width + GAP_px && lower.left < upper.left + upper.width + GAP_px
  return (
    upper.row > lower.row &&
    upper.x > lower.left - LEADER_px &&
    upper.x < lower.left + lower.width + LEADER_px
  )
}
