/** Time and current of the wave on paper: each step a stretch of pixels, current on a logarithmic scale. */
import { type ScaleLinear, type ScaleLogarithmic, scaleLinear, scaleLog } from 'd3-scale'
import type { Frame } from '../figure/axes.tsx'
import type { WaveStep } from './wave-parts.ts'

/** To scale, or with half of the width shared out alike, so that short steps can be seen. */
export type Widths = 'to scale' | 'evened'

/** Rest is drawn for a little before the wake and after it. */
export const REST_px = 34
/** At its most even, so much of the width is shared out alike. */
const EVENED = 0.6
const SECOND = { unit_s: 1, words: 'seconds' }
const TIME_UNITS = [
  { below_s: 1, unit_s: 1e-3, words: 'milliseconds' },
  { below_s: 200, ...SECOND },
  { below_s: Infinity, unit_s: 60, words: 'minutes' },
] as const

/** Width in pixels of each step. */
export function stepWidths(steps: readonly WaveStep[], frame: Frame, widths: Widths): number[] {
  const room = frame.width - frame.left - frame.right - 2 * REST_px
  const total_s = steps.at(-1)?.to_s ?? 0
  const even = widths === 'evened' ? EVENED : 0
  return steps.map(
    ({ from_s, to_s }) => room * (even / steps.length + ((1 - even) * (to_s - from_s)) / total_s),
  )
}

/** Linear within each step: seconds to pixels. */
export function timeScale(
  steps: readonly WaveStep[],
  widths: readonly number[],
  frame: Frame,
): ScaleLinear<number, number> {
  let x = frame.left + REST_px
  const ends = widths.map((width) => {
    x += width
    return x
  })
  return scaleLinear([0, ...steps.map(({ to_s }) => to_s)], [frame.left + REST_px, ...ends])
}

export function currentScale(currents_A: readonly number[], frame: Frame): ScaleLogarithmic<number, number> {
  const drawn = currents_A.filter((current_A) => current_A > 0)
  const least = drawn.length === 0 ? 1e-6 : Math.min(...drawn)
  const most = drawn.length === 0 ? 1e-3 : Math.max(...drawn)
  const low = 10 ** Math.floor(Math.log10(least) - 0.05)
  const high = 10 ** Math.ceil(Math.log10(most) + 0.05)
  return scaleLog([low, high], [frame.height - frame.bottom, frame.top])
}

/** The powers of ten within the scale; every second of them where they would stand too close. */
export function decades(scale: ScaleLogarithmic<number, number>): number[] {
  const [low, high] = scale.domain().map((bound) => Math.round(Math.log10(bound)))
  const [bottom, top] = scale.range()
  const step = (bottom - top) / Math.max(1, high - low) < 24 ? 2 : 1
  const ticks: number[] = []
  for (let power = low; power <= high; power += step) ticks.push(Number(`1e${power}`))
  return ticks
}

export interface TimeAxis {
  readonly unit_s: number
  readonly words: string
  /** In seconds. */
  readonly ticks: readonly number[]
}

/** Even steps of time where it is drawn to scale; else the ends of the steps, as far as there is room. */
export function timeAxis(
  steps: readonly WaveStep[],
  x: ScaleLinear<number, number>,
  widths: Widths,
  room_px: number,
): TimeAxis {
  const total_s = steps.at(-1)?.to_s ?? 0
  const { unit_s, words } = TIME_UNITS.find(({ below_s }) => total_s < below_s) ?? SECOND
  if (widths === 'to scale')
    return {
      unit_s,
      words,
      ticks: scaleLinear([0, total_s / unit_s], [0, 1])
        .ticks(Math.max(2, room_px / 90))
        .map((tick) => tick * unit_s),
    }
  const ticks = [0]
  for (const { to_s } of steps) if (x(to_s) - x(ticks[ticks.length - 1]) > 44) ticks.push(to_s)
  return { unit_s, words, ticks }
}
