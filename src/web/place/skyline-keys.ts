/** Keys on a point of the skyline: arrows move it, Delete takes it away; the focus goes along, or to its neighbour. */
import type { HorizonPoint } from '../../sky/place.ts'
import type { SkylinePoint } from './skyline-edits.ts'

/** Degrees of direction and of elevation. */
const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
  ArrowRight: [5, 0],
  ArrowLeft: [-5, 0],
  PageUp: [0, 5],
  PageDown: [0, -5],
}

export const isRemoving = (key: string): boolean => key === 'Delete' || key === 'Backspace'

/** Null for a key that does nothing here; where another point stands already, this one stays. */
export function pointAfterKey(
  key: string,
  point: SkylinePoint,
  all: readonly SkylinePoint[],
): HorizonPoint | null {
  const step = STEPS[key]
  if (step === undefined) return null
  const azimuth_deg = (point.azimuth_deg + step[0] + 360) % 360
  if (step[0] !== 0 && all.some((other) => other.azimuth_deg === azimuth_deg)) return point
  return { azimuth_deg, elevation_deg: Math.min(90, Math.max(0, point.elevation_deg + step[1])) }
}

/** Once the figure shows the change: a point that was turned, or that was taken away, is drawn as another element. */
export function focusPoint(figure: Element | null, azimuth_deg: number): void {
  requestAnimationFrame(() => {
    const points = [...(figure?.querySelectorAll<SVGElement>('[data-azimuth]') ?? [])]
    const away = points.map(({ dataset }) => Math.abs(Number(dataset.azimuth) - azimuth_deg))
    const next = points[away.indexOf(Math.min(...away))] ?? figure?.querySelector<HTMLElement>('button')
    next?.focus()
  })
}
