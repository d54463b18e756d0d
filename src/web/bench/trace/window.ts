/** The stretch of a recording that is in sight, in s from its start, and how it moves. Pure. */
export interface Window {
  readonly from_s: number
  readonly to_s: number
}

export interface Limits {
  readonly duration_s: number
  /** Nearer one does not come. */
  readonly shortest_s: number
}

/** Cut and moved so that it lies inside the recording, and is neither too short nor longer than the whole. */
export function fitted({ from_s, to_s }: Window, { duration_s, shortest_s }: Limits): Window {
  const width = Math.min(Math.max(to_s - from_s, Math.min(shortest_s, duration_s)), duration_s)
  const middle = (from_s + to_s) / 2
  const from = Math.min(Math.max(middle - width / 2, 0), duration_s - width)
  return { from_s: from, to_s: from + width }
}

/** `share` of its width, to the right where above zero. */
export function panned(window: Window, share: number, limits: Limits): Window {
  const by_s = share * (window.to_s - window.from_s)
  return fitted({ from_s: window.from_s + by_s, to_s: window.to_s + by_s }, limits)
}

/** `factor` times as wide; what lies at `at` (0 at the left edge, 1 at the right) stays where it is. */
export function zoomed(window: Window, factor: number, at: number, limits: Limits): Window {
  const width = window.to_s - window.from_s
  const wanted = Math.min(
    Math.max(width * factor, Math.min(limits.shortest_s, limits.duration_s)),
    limits.duration_s,
  )
  const fixed_s = window.from_s + at * width
  return fitted({ from_s: fixed_s - at * wanted, to_s: fixed_s + (1 - at) * wanted }, limits)
}

/** A window around a stretch, with room on either side. */
export function around({ from_s, to_s }: Window, limits: Limits, room = 0.5): Window {
  const margin_s = room * (to_s - from_s)
  return fitted({ from_s: from_s - margin_s, to_s: to_s + margin_s }, limits)
}
