/** Each step in each wake: which segments are it, how long it took and how much. */
import { compensatedSum } from '../numeric/sum.ts'
import type { Cycle } from './cycle.ts'
import { type Roles, roleAt } from './match-steps.ts'
import { isWhole } from './segments.ts'
import type { Analysis } from './states.ts'

/** One step in one wake. */
export interface Occurrence {
  /** Segments that are it, in order. */
  readonly segments: readonly number[]
  /** Whether it was measured from its beginning to its end, and all of the wake before it. */
  readonly whole: boolean
  readonly duration_s: number
  readonly charge_C: number
}

/** By step. What comes after time that is not known may be another visit than it looks, and is not whole. */
export function occurrencesIn(
  { segments, states }: Analysis,
  roles: Roles,
  { from, to }: Cycle,
): Map<number, Occurrence> {
  const visits = new Map<number, number>()
  const found = new Map<number, number[]>()
  let known = from
  while (known < to && isWhole(segments, known, known + 1)) known++
  for (let k = from; k < to; k++) {
    const state = segments.states[k]
    const visit = visits.get(state) ?? 0
    visits.set(state, visit + 1)
    const role = roleAt(roles, state, visit)
    if (role.kind === 'step') found.set(role.step, [...(found.get(role.step) ?? []), k])
  }
  // Samples next to a change hold some of either level, so a segment counts with the mean of the others.
  const meanIn = (k: number) =>
    Number.isNaN(segments.mean_A[k]) ? states[segments.states[k]].mean_A : segments.mean_A[k]
  const occurrence = (own: readonly number[]): Occurrence => ({
    segments: own,
    whole: own.every((k) => k < known),
    duration_s: compensatedSum(own.map((k) => segments.times_s[k + 1] - segments.times_s[k])),
    charge_C: compensatedSum(own.map((k) => meanIn(k) * (segments.times_s[k + 1] - segments.times_s[k]))),
  })
  return new Map([...found].map(([step, own]) => [step, occurrence(own)]))
}
