/** The numbers of one step, from what was measured of it. */
import type { Path } from '../outpost/file/diagnostic.ts'
import { formatUncertain } from '../quantity/format-uncertain.ts'
import { best, meanOf, standardUncertainty } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import type { MeasuredStep } from '../recording/match-steps-measure.ts'
import { type MeasuredPeak, peakOf } from '../recording/match-steps-peak.ts'
import type { Analysis } from '../recording/states.ts'
import type { Samples } from '../recording/states-samples.ts'
import type { Step } from '../wake/wake.ts'
import { type Adopted, type AdoptedNumber, asWritten, currentText, without } from './adopt-numbers.ts'

export interface StepFound {
  readonly found: MeasuredStep
  readonly step: Step
  readonly path: Path
  readonly samples: Samples
  readonly analysis: Analysis
  readonly always: readonly Uncertain[]
}

export function stepNumbers({ found, step, path, samples, analysis, always }: StepFound): Adopted {
  const { states, duration_s, occurrences } = found
  const numbers: AdoptedNumber[] = []
  const notes: string[] = []
  const add = (key: string, text: string) => numbers.push({ path: [...path, key], text, states })
  const current = without(found.current, always)
  if (duration_s === null) {
    add('draws', currentText(current))
    notes.push(
      `"${step.name}" was not measured from its beginning to its end in any wake: only what it draws is taken over.`,
    )
    return { numbers, notes }
  }
  add('for', formatUncertain(asWritten(duration_s), 'duration'))
  const peak = peakOf(samples, analysis, found)
  const beside = besidePeak(current, duration_s.value, peakPart(peak, step))
  add('draws', currentText(beside ?? current))
  if (peak !== null) add('peak', peakText(peak))
  if (peak?.coarse)
    notes.push(`The peak of "${step.name}" lasts less than three samples: it may be higher than it looks.`)
  if (peak === null && step.peak !== null && beside !== null)
    notes.push(
      `No peak of "${step.name}" stands out of the recording: that of the file stays, and draws is what is left beside it.`,
    )
  if (peak === null && step.peak !== null && beside === null)
    notes.push(
      `The peak that the file gives "${step.name}" takes about as much charge as the whole step was measured to take: check it.`,
    )
  if (found.shortfall === 'incomplete')
    notes.push(
      `In most wakes time of "${step.name}" was not measured: what is written is of ${occurrences.length} of them, and others may differ.`,
    )
  if (occurrences.length === 1)
    notes.push(`"${step.name}" was seen once: how much it varies from wake to wake is not known.`)
  return { numbers, notes }
}

interface PeakPart {
  readonly current_A: number
  readonly duration_s: number
}

/** The peak that the file will have. */
function peakPart(peak: MeasuredPeak | null, { peak: written }: Step): PeakPart | null {
  if (peak !== null) return { current_A: peak.current_A.value, duration_s: peak.duration_s.value }
  return written === null
    ? null
    : { current_A: best(written.current_A), duration_s: best(written.duration_s) }
}

/**
 * The file's `draws` flows beside the peak, so that both together take the charge measured:
 * (I t − I_p t_p) / (t − t_p). Null where there is no peak, or nothing certain is left beside it.
 */
function besidePeak(current: Uncertain, duration_s: number, peak: PeakPart | null): Uncertain | null {
  if (peak === null || current.kind === 'below') return null
  const left_s = duration_s - peak.duration_s
  const value = (meanOf(current) * duration_s - peak.current_A * peak.duration_s) / left_s
  const u = (standardUncertainty(current) * duration_s) / left_s
  return left_s > 0 && value > 2 * u ? { kind: 'normal', value, u } : null
}

function peakText({ current_A, duration_s }: MeasuredPeak): string {
  return `${formatUncertain(asWritten(current_A), 'current')} for ${formatUncertain(asWritten(duration_s), 'duration')}`
}
