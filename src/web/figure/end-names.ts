/** Names of curves at their ends, moved up or down just so far that none stands on another. */

export interface NamedEnd {
  readonly name: readonly string[]
  readonly y: number
}

export interface EndName {
  readonly name: readonly string[]
  /** Base line of its first piece. */
  readonly at_px: number
}

const LINE_px = 14
const GAP_px = 3

/** In the order given, between `top` and `bottom`. */
export function namesAtEnds(ends: readonly NamedEnd[], top: number, bottom: number): EndName[] {
  const boxes = ends
    .map(({ name, y }, index) => {
      const height = name.length * LINE_px + GAP_px
      return { name, index, height, from: y - height / 2 }
    })
    .sort((a, b) => a.from - b.from)
  let floor = top
  for (const box of boxes) {
    box.from = Math.max(box.from, floor)
    floor = box.from + box.height
  }
  let ceiling = bottom + LINE_px
  for (const box of boxes.toReversed()) {
    box.from = Math.min(box.from, ceiling - box.height)
    ceiling = box.from
  }
  return boxes
    .sort((a, b) => a.index - b.index)
    .map(({ name, from }) => ({ name, at_px: from + LINE_px - GAP_px }))
}
