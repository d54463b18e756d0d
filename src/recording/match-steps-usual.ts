/** A wake that shows all that the device usually does: the places of its states, with what they usually last. */
import { quantileSorted } from '../numeric/quantile.ts'
import type { Cycle } from './cycle.ts'
import type { Place } from './match-steps-align.ts'
import type { Segments } from './segments.ts'
import type { Analysis } from './states.ts'

/** A sequence of states that fewer wakes have is an exception. */
const LEAST_SHARE = 0.1

/**
 * Of the sequences that a tenth of the wakes have, none of them a repetition, the one with most states: a step of every
 * second wake is in it. Empty without wakes. Pauses at rest are left out.
 */
export function usualWake({ states, segments, cycles }: Analysis): readonly Place[] {
  const { list, rest } = cycles
  const alike = new Map<string, Cycle[]>()
  for (const cycle of wholeWakes(list, segments)) {
    const key = cycle.sequence.join()
    alike.set(key, [...(alike.get(key) ?? []), cycle])
  }
  const common = [...alike.values()].filter((wakes) => wakes.length >= LEAST_SHARE * list.length)
  const richness = (wakes: readonly Cycle[]) => new Set(wakes[0].sequence).size
  common.sort((a, b) => richness(b) - richness(a) || b.length - a.length)
  const usual = common[0]
  if (usual === undefined) return []
  return usual[0].sequence.flatMap((state, place): Place[] => {
    if (rest !== null && state <= rest) return []
    const durations = Float64Array.from(usual, ({ from }) => lasted(segments, from + place)).sort()
    return [{ state, current_A: states[state].mean_A, duration_s: quantileSorted(durations, 0.5) }]
  })
}

/**
 * Wakes that went through once and to their end; all that ended, where none did. Those measured whole, unless they are
 * fewer than half.
 */
export function wholeWakes(list: readonly Cycle[], { states }: Segments): readonly Cycle[] {
  const ended = list.filter(({ to }) => to < states.length)
  const measured = ended.filter((cycle) => cycle.measured)
  const known = measured.length >= ended.length / 2 ? measured : ended
  const troubled = new Set(['repeated', 'truncated'])
  const whole = known.filter(({ odd }) => !odd.some(({ kind }) => troubled.has(kind)))
  return whole.length > 0 ? whole : known
}

const lasted = ({ times_s }: Segments, segment: number): number => times_s[segment + 1] - times_s[segment]
