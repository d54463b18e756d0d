/** Ticks of a time axis: few, at round times, told from a round time nearby where the window is narrow and far out. Pure. */
import { placeInTime } from '../../../report/recording-words.ts'
import { localised, numberShown } from '../../look/shown.ts'
import type { Tick } from './current-scale.ts'
import type { Window } from './window.ts'

const MINUTE = 60
const HOUR = 3600
const DAY = 86_400
/** Beyond a second, clocks are read in these. */
const STEPS_S = [
  1,
  2,
  5,
  10,
  15,
  30,
  MINUTE,
  120,
  300,
  600,
  900,
  1800,
  HOUR,
  7200,
  10_800,
  21_600,
  43_200,
  DAY,
]

export interface TimeAxis {
  readonly ticks: readonly Tick[]
  /** What the axis is called. */
  readonly name: string
}

/** `most` ticks or fewer. */
export function timeAxis({ from_s, to_s }: Window, most: number): TimeAxis {
  const step_s = stepFor((to_s - from_s) / Math.max(most, 1))
  const first = Math.ceil(from_s / step_s - 1e-9)
  const count = Math.max(Math.floor(to_s / step_s + 1e-9) - first + 1, 0)
  const times = Array.from({ length: count }, (_, k) => (first + k) * step_s)
  if (step_s >= 1 || to_s < MINUTE) {
    // Enough decimals for the step, and no more.
    const digits = Math.max(-Math.floor(Math.log10(step_s) + 1e-9), 0)
    return {
      name: 'time from the start',
      ticks: times.map((value) => ({
        value,
        label: to_s < MINUTE ? `${decimals(value, digits)} s` : localised(clockLike(value)),
      })),
    }
  }
  const base_s = Math.floor(from_s)
  const [unit, symbol] = step_s >= 0.1 ? [1, 's'] : step_s >= 1e-4 ? [1e-3, 'ms'] : [1e-6, 'µs']
  const digits = Math.max(-Math.floor(Math.log10(step_s / unit) + 1e-9), 0)
  return {
    name: `time after ${placeInTime(base_s) || '0 s'}`,
    ticks: times.map((value) => ({
      value,
      label: `+${decimals((value - base_s) / unit, digits)} ${symbol}`,
    })),
  }
}

/** `0:05`, `1:02:30`, from two days on `2 d 3:00:00`. */
function clockLike(time_s: number): string {
  const whole = Math.round(time_s)
  const two = (value: number) => String(value).padStart(2, '0')
  const days = whole >= 2 * DAY ? Math.floor(whole / DAY) : 0
  const left = whole - days * DAY
  const [hours, minutes, seconds] = [
    Math.floor(left / HOUR),
    Math.floor((left % HOUR) / MINUTE),
    left % MINUTE,
  ]
  if (days > 0) return `${numberShown(days, 9)} d ${hours}:${two(minutes)}:${two(seconds)}`
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds)}` : `${minutes}:${two(seconds)}`
}

const decimals = (value: number, digits: number): string => localised(value.toFixed(Math.min(digits, 12)))

function stepFor(least_s: number): number {
  if (least_s > STEPS_S[STEPS_S.length - 1]) return Math.ceil(least_s / DAY) * DAY
  if (least_s > 0.5) return STEPS_S.find((step) => step >= least_s) ?? DAY
  const power = 10 ** Math.floor(Math.log10(least_s))
  return power * ([1, 2, 5].find((step) => step * power >= least_s) ?? 10)
}
