/** What keys do to the window; null for those that do nothing. Pure. */
import { fitted, type Limits, panned, type Window, zoomed } from './window.ts'

const STEP = 0.1
const PAGE = 0.9
const NEARER = 0.5

/** `pixel`: how much of the width one of them is. */
export function windowAfterKey(
  key: string,
  isFine: boolean,
  window: Window,
  limits: Limits,
  pixel: number,
): Window | null {
  const step = isFine ? pixel : STEP
  switch (key) {
    case 'ArrowLeft':
      return panned(window, -step, limits)
    case 'ArrowRight':
      return panned(window, step, limits)
    case 'PageUp':
      return panned(window, -PAGE, limits)
    case 'PageDown':
      return panned(window, PAGE, limits)
    case 'ArrowUp':
    case '+':
    case '=':
      return zoomed(window, NEARER, 0.5, limits)
    case 'ArrowDown':
    case '-':
      return zoomed(window, 1 / NEARER, 0.5, limits)
    case 'Home':
      return fitted({ from_s: 0, to_s: limits.duration_s }, limits)
    default:
      return null
  }
}

/** An edge of a stretch, moved by keys within what is in sight. */
export function edgeAfterKey(
  key: string,
  isCoarse: boolean,
  at_s: number,
  window: Window,
  pixel: number,
): number | null {
  const step_s = (window.to_s - window.from_s) * pixel * (isCoarse ? 10 : 1)
  switch (key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return at_s - step_s
    case 'ArrowRight':
    case 'ArrowUp':
      return at_s + step_s
    case 'PageDown':
      return at_s - 50 * step_s
    case 'PageUp':
      return at_s + 50 * step_s
    case 'Home':
      return window.from_s
    case 'End':
      return window.to_s
    default:
      return null
  }
}
