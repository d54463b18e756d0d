/** A death, by its cause: the shape says which, the colour nothing. */
import { symbol, symbolAsterisk, symbolCircle, symbolSquare, symbolTriangle, symbolX } from 'd3-shape'
import type { Cause } from '../../outlook/cause.ts'

const SHAPES = {
  empty: symbolCircle,
  'brown-out under the peak': symbolTriangle,
  cold: symbolAsterisk,
  'too old': symbolSquare,
  'flash worn out': symbolX,
} satisfies Record<Cause, unknown>

export interface DeathMarkProps {
  readonly cause: Cause
  readonly x: number
  readonly y: number
  /** Half its height. */
  readonly size: number
}

export function DeathMark({ cause, x, y, size }: DeathMarkProps) {
  return (
    <path
      className="death"
      d={symbol(SHAPES[cause], Math.PI * size * size)() ?? ''}
      transform={`translate(${x},${y})`}
    />
  )
}
