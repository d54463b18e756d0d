/** Current to height, logarithmic or linear, and the ticks that such an axis wants. Pure. */
import { scaleLinear } from 'd3-scale'
import { formatQuantity } from '../../../quantity/format.ts'
import { localised } from '../../look/shown.ts'

export type ScaleKind = 'log' | 'linear'

export interface CurrentScale {
  readonly kind: ScaleKind
  readonly low_A: number
  readonly high_A: number
}

/** What is to be seen: `usual_A` is what hardly anything lies below, as the 5 % quantile. */
export interface Extent {
  readonly min_A: number
  readonly usual_A: number
  readonly max_A: number
}

const BELOW = 3
const ABOVE = 1.3
/** Where the usual is at zero or below, a logarithmic axis goes so far down. */
const DEEP = 1e-5
const ROOM = 0.04
/** A recording of nothing at all still has an axis. */
const NOTHING_A = 1e-6

export function currentScale(kind: ScaleKind, { min_A, usual_A, max_A }: Extent): CurrentScale {
  if (kind === 'log') {
    const high_A = Math.max(max_A * ABOVE, NOTHING_A)
    const low_A = usual_A > 0 ? usual_A / BELOW : high_A * DEEP
    return { kind, low_A: Math.min(low_A, high_A / 10), high_A }
  }
  const [low, high] = [Math.min(min_A, 0), Math.max(max_A, 0)]
  const room = ROOM * (high - low || NOTHING_A)
  return { kind, low_A: low < 0 ? low - room : 0, high_A: high + room }
}

/** From 0 at the foot to 1 at the head; what lies beyond the axis lies on its end. */
export function heightOf({ kind, low_A, high_A }: CurrentScale, current_A: number): number {
  const share =
    kind === 'linear'
      ? (current_A - low_A) / (high_A - low_A)
      : current_A > low_A
        ? Math.log(current_A / low_A) / Math.log(high_A / low_A)
        : 0
  return Math.min(Math.max(share, 0), 1)
}

export interface Tick {
  readonly value: number
  readonly label: string
}

const TICKS = 5

export function currentTicks({ kind, low_A, high_A }: CurrentScale): Tick[] {
  const values = kind === 'log' ? logTicks(low_A, high_A) : scaleLinear([low_A, high_A], [0, 1]).ticks(TICKS)
  return values.map((value) => ({
    value,
    label: localised(formatQuantity(Number(value.toPrecision(6)), 'current', { digits: 4 })),
  }))
}

/** Powers of ten; of a narrow axis also twice and five times each. */
function logTicks(low: number, high: number): number[] {
  const decades = Math.log10(high / low)
  const steps = decades > 3 ? [1] : decades > 1.3 ? [1, 3] : [1, 2, 5]
  const every = Math.ceil(decades / 7)
  const ticks: number[] = []
  for (let power = Math.floor(Math.log10(low)); power <= Math.log10(high); power++)
    for (const step of steps) {
      const value = step * 10 ** power
      if (value >= low && value <= high && power % every === 0) ticks.push(value)
    }
  return ticks
}

/** Ends that hold what is in sight, moved in steps, so that the axis stands still while little changes. */
export function extentInSteps({ min_A, usual_A, max_A }: Extent): Extent {
  return {
    min_A: min_A < 0 ? -stepUp(-min_A) : stepDown(min_A),
    usual_A: stepDown(usual_A),
    max_A: stepUp(max_A),
  }
}

const stepUp = (x: number): number => (x > 0 ? (stepsOf(x).find((step) => step >= x) ?? x) : x)
const stepDown = (x: number): number => (x > 0 ? (stepsOf(x).findLast((step) => step <= x) ?? x) : x)

function stepsOf(x: number): number[] {
  const power = 10 ** Math.floor(Math.log10(x))
  return [1, 2, 5, 10].map((step) => step * power)
}
