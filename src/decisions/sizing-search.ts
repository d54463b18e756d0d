/** The first design that passes along a line on which designs get better. */
import type { Picked } from './common-runs.ts'
import type { Evidence } from './sizing-evidence.ts'
import type { Study } from './study.ts'

/**
 * The place of the first design that passes, null where none does; `picks` go from worst to best: what one of them
 * survives, those after it survive too. Halves the line: for long lines of which nothing is known.
 */
export function* firstPassing(picks: readonly Picked[], evidence: Evidence): Study<number | null> {
  let failed = -1
  let passed = picks.length
  while (passed - failed > 1) {
    const place = Math.floor((failed + passed) / 2)
    if ((yield* evidence.judge(picks[place])) === 'passes') passed = place
    else failed = place
  }
  return passed === picks.length ? null : passed
}

/**
 * The same from a place on before which all are known to fail, one after the other. To show that a design passes takes
 * many runs and that it fails few, and this way only one that passes is met.
 */
export function* climbToPassing(
  picks: readonly Picked[],
  from: number,
  evidence: Evidence,
): Study<number | null> {
  for (let place = from; place < picks.length; place++)
    if ((yield* evidence.judge(picks[place])) === 'passes') return place
  return null
}
