/** Where a day's charge goes at the device's rail, in coulombs. */
import type { WakeMoments } from './moments.ts'
import type { Drain, Wake } from './wake.ts'

const DAY_s = 86_400

export interface DayShare {
  readonly kind: 'step' | 'rest' | 'standing'
  readonly name: string
  readonly charge_C: number
  /** Side of the regulator on which it is drawn. */
  readonly from: Drain['from']
}

/**
 * One share for each step, for the rest, and for each standing drain, in that order; together a day's whole charge.
 * Back-offs belong to their step. `moments` are those of `wake`, `wakesPerDay` the wakes that are done.
 */
export function dayShares(wake: Wake<number>, moments: WakeMoments, wakesPerDay: number): DayShare[] {
  const rest_s = DAY_s - wakesPerDay * moments.total.duration_s
  return [
    ...moments.steps.map(({ step, spread }) => ({
      kind: 'step' as const,
      name: step.name,
      charge_C: wakesPerDay * spread.charge_C,
      from: 'rail' as const,
    })),
    { kind: 'rest', name: 'rest', charge_C: rest_s * wake.rest_A, from: 'rail' },
    ...wake.standing.map(({ name, current_A, from }) => ({
      kind: 'standing' as const,
      name,
      charge_C: DAY_s * current_A,
      from,
    })),
  ]
}
