/** Where what was measured of a step or a cycle is not enough to judge it by. */
import type { Occurrence } from './match-steps-occurrences.ts'
import type { Analysis } from './states.ts'

export type Shortfall =
  /** The instrument's range ended below its current, so that it is more than was measured. */
  | 'clipped'
  /** In most of the wakes time of it is missing. */
  | 'incomplete'
  /** No range of the instrument, as it was stated, reaches so far. */
  | 'beyond ranges'

/** Fewer than this share of what happened, measured whole, may not stand for the rest of it. */
const LEAST_WHOLE = 0.5

/** `all`: what is known of the step in each wake. `clipped`: 1 for each segment that holds clipped samples. */
export function stepShortfall(
  { segments }: Analysis,
  states: readonly number[],
  all: readonly Occurrence[],
  clipped: Uint8Array,
): Shortfall | null {
  const isClipped =
    all.length > 0
      ? all.some((each) => each.segments.some((k) => clipped[k] === 1))
      : segments.states.some((state, k) => clipped[k] === 1 && states.includes(state))
  if (isClipped) return 'clipped'
  return all.filter(({ whole }) => whole).length < LEAST_WHOLE * all.length ? 'incomplete' : null
}

export function cycleShortfall({ cycles: { list } }: Analysis, clipped: Uint8Array): Shortfall | null {
  const last = list.length - 1
  if (last < 1) return null
  if (clipped.subarray(list[0].from, list[last].from).includes(1)) return 'clipped'
  const whole = list.filter(({ charge_C }) => charge_C !== null).length
  return whole < LEAST_WHOLE * last ? 'incomplete' : null
}
