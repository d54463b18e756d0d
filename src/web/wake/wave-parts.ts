/** The wave of one wake, part by part, each knowing which step of the file it is of. Seconds, amperes, coulombs. */
import { stepsOf } from '../../wake/outcomes.ts'
import { segmentsOf } from '../../wake/segments.ts'
import type { Step, Wake } from '../../wake/wake.ts'

/** Where a step stands under `wake` in the file. */
export interface StepPlace {
  readonly list: 'boot' | 'steps'
  readonly index: number
}

export interface WavePart extends StepPlace {
  readonly name: string
  readonly isPeak: boolean
  /** From the start of the wake. */
  readonly from_s: number
  readonly to_s: number
  readonly current_A: number
  readonly charge_C: number
  /** Of the charge of the wave as drawn. */
  readonly shareOfCharge: number
  /** Of all wakes: those in which the step has its turn and happens. */
  readonly shareOfWakes: number
}

/** One step's parts together, from its start to its end. */
export interface WaveStep extends StepPlace {
  readonly step: Step<number>
  readonly from_s: number
  readonly to_s: number
  readonly parts: readonly WavePart[]
}

/** As `waveOf`: every step once, in order, at the first try. Boot steps come first where the device restarts. */
export function waveSteps(wake: Wake<number>): WaveStep[] {
  const booted = wake.resume === 'restart' ? wake.boot.length : 0
  let end_s = 0
  const steps = stepsOf(wake).map((step, k) => {
    const place: StepPlace = k < booted ? { list: 'boot', index: k } : { list: 'steps', index: k - booted }
    const from_s = end_s
    const parts = segmentsOf(step, { failures: 0, succeeds: true }, wake.rest_A).map((segment) => {
      const start_s = end_s
      end_s += segment.duration_s
      return {
        ...place,
        name: step.name,
        isPeak: segment.kind === 'peak',
        from_s: start_s,
        to_s: end_s,
        current_A: segment.current_A,
        charge_C: segment.current_A * segment.duration_s,
        shareOfWakes: step.chance / step.every,
      }
    })
    return { ...place, step, from_s, to_s: end_s, parts }
  })
  const charge_C = steps.flatMap(({ parts }) => parts).reduce((sum, part) => sum + part.charge_C, 0)
  return steps.map((step) => ({
    ...step,
    parts: step.parts.map((part) => ({
      ...part,
      shareOfCharge: charge_C > 0 ? part.charge_C / charge_C : 0,
    })),
  }))
}

/** The part under a moment; before the first and after the last, these. */
export function partAt(parts: readonly WavePart[], at_s: number): number {
  const index = parts.findIndex(({ to_s }) => at_s < to_s)
  return index < 0 ? parts.length - 1 : index
}
