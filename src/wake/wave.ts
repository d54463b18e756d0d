/** The drawn wave of one wake: what each step looks like when its turn comes and all goes well. */
import { stepsOf } from './outcomes.ts'
import { type Segment, segmentsOf } from './segments.ts'
import type { Wake } from './wake.ts'

export interface WaveSegment {
  /** Seconds from the start of the wake. */
  readonly t0_s: number
  readonly t1_s: number
  /** At the rail, standing drains not included. */
  readonly current_A: number
  readonly name: string
  readonly kind: Segment['kind']
  /** Share of wakes in which the step has its turn and happens: 1 where it belongs to every wake. */
  readonly share: number
}

/**
 * Piecewise constant current of a wake in which every step is done at its first try, in order and without gaps. Failed
 * tries are not drawn; a step that is not done in every wake is, with its share.
 */
export function waveOf(wake: Wake<number>): WaveSegment[] {
  const wave: WaveSegment[] = []
  let t0_s = 0
  for (const step of stepsOf(wake))
    for (const { name, kind, duration_s, current_A } of segmentsOf(
      step,
      { failures: 0, succeeds: true },
      wake.rest_A,
    )) {
      const t1_s = t0_s + duration_s
      wave.push({ t0_s, t1_s, current_A, name, kind, share: step.chance / step.every })
      t0_s = t1_s
    }
  return wave
}
