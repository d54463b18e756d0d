/** The name of a curve beside its end, in its colour. */
import type { NamedEnd } from './end-names.ts'

export interface EndNameProps {
  readonly end: NamedEnd & { readonly x: number; readonly pen: string }
  /** Base line and left side of the name. */
  readonly at_px: number
  readonly left: number
}

/** Further from its name than this, a curve is joined to it. */
const FAR_px = 16

export function EndName({ end, at_px, left }: EndNameProps) {
  const { name, x, y, pen } = end
  return (
    <>
      {left - x > FAR_px && <path className="leader" d={`M${x + 2},${y}L${left - 3},${at_px - 4}`} />}
      <text x={left} y={at_px} className={`name-of-${pen}`}>
        {name.map((piece, k) => (
          <tspan key={piece} x={left} dy={k === 0 ? 0 : 14}>
            {piece}
          </tspan>
        ))}
      </text>
    </>
  )
}
