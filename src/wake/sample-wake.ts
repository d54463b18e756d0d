/** Single wakes as they fall, chances and tries drawn one by one: for a simulation that follows every wake. */
import type { Stream } from '../numeric/random.ts'
import { hasTurn, stepsOf } from './outcomes.ts'
import { type Course, type Segment, segmentsOf } from './segments.ts'
import type { Step, Wake } from './wake.ts'

export interface SampledWake {
  /** In order; amperes at the rail, standing drains not included. */
  readonly segments: readonly Segment[]
  readonly duration_s: number
  readonly charge_C: number
  readonly reports: number
}

/** Wake number `index`, counted from 1 over wakes that are done. */
export function sampleWake(wake: Wake<number>, index: number, stream: Stream): SampledWake {
  const segments: Segment[] = []
  let reports = 0
  for (const step of stepsOf(wake)) {
    if (!hasTurn(step.every, index) || stream.uniform() >= step.chance) continue
    const course = drawCourse(step, stream)
    segments.push(...segmentsOf(step, course, wake.rest_A))
    if (!course.succeeds) break
    reports += step.reports
  }
  return {
    segments,
    duration_s: segments.reduce((sum, { duration_s }) => sum + duration_s, 0),
    charge_C: segments.reduce((sum, { duration_s, current_A }) => sum + duration_s * current_A, 0),
    reports,
  }
}

function drawCourse({ retries }: Step<number>, stream: Stream): Course {
  if (retries === null) return { failures: 0, succeeds: true }
  let failures = 0
  while (failures <= retries.times && stream.uniform() < retries.probability) failures++
  return { failures, succeeds: failures <= retries.times }
}
