/**
 * What one step draws over time, given how it went. Seconds; amperes at the device's rail, standing drains not
 * included; coulombs.
 */
import type { Step } from './wake.ts'

export interface Segment {
  readonly name: string
  readonly kind: 'step' | 'peak' | 'failed try' | 'back-off'
  readonly duration_s: number
  readonly current_A: number
}

/** How a step went: so many failed tries, and whether one succeeded in the end. */
export interface Course {
  readonly failures: number
  readonly succeeds: boolean
}

/**
 * The segments of a step in order: failed tries with a back-off at `rest_A` wherever another try follows, then the
 * step itself, its peak first. A failed try draws the step's current without the peak. A peak is part of its step's
 * time (one that is longer fills it), and the step's current is the mean beside it: of the step less the peak.
 */
export function segmentsOf(step: Step<number>, course: Course, rest_A: number): Segment[] {
  const { name, current_A, retries, peak } = step
  const segments: Segment[] = []
  if (retries !== null)
    for (let i = 0; i < course.failures; i++) {
      segments.push({ name, kind: 'failed try', duration_s: retries.failedDuration_s, current_A })
      if (course.succeeds || i < course.failures - 1)
        segments.push({ name, kind: 'back-off', duration_s: retries.backoff_s, current_A: rest_A })
    }
  if (course.succeeds) {
    const peak_s = peak === null ? 0 : Math.min(peak.duration_s, step.duration_s)
    if (peak !== null) segments.push({ name, kind: 'peak', duration_s: peak_s, current_A: peak.current_A })
    segments.push({ name, kind: 'step', duration_s: step.duration_s - peak_s, current_A })
  }
  return segments.filter((segment) => segment.duration_s > 0)
}
