/** A place of the trace and what lies there, in words. */
import { formatQuantity } from '../../../quantity/format.ts'
import { placeInTime } from '../../../report/recording-words.ts'
import { localised } from '../../look/shown.ts'
import type { Window } from './window.ts'

const DIGITS = { digits: 4 } as const
const PIXELS = 1000

/** As exact as can be told apart in the window. */
export function placeShown(time_s: number, { from_s, to_s }: Window): string {
  const step_s = (to_s - from_s) / PIXELS
  if (step_s >= 1) return localised(placeInTime(time_s) || '0 s')
  const digits = Math.min(Math.ceil(-Math.log10(step_s)), 9)
  if (time_s < 60) return localised(`${time_s.toFixed(digits)} s`)
  const minutes = Math.floor(time_s / 60)
  const whole = placeInTime(minutes * 60)
  return localised(`${whole} ${(time_s - minutes * 60).toFixed(digits)} s`)
}

export function currentsShown({
  min_A,
  max_A,
  mean_A,
}: {
  min_A: number
  max_A: number
  mean_A: number
}): string {
  const shown = (current_A: number) => localised(formatQuantity(current_A, 'current', DIGITS))
  if (shown(min_A) === shown(max_A)) return shown(mean_A)
  return `${shown(min_A)} to ${shown(max_A)}, mean ${shown(mean_A)}`
}
