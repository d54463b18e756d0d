/** The use case of the gate: a recording of this build beside the budget in its outpost file. */
import { atBest } from '../outlook/draw.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { type Gate, gateOf } from '../recording/gate.ts'
import type { CheckReport } from '../report/check-report.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import type { MatchedRecording } from './matched-recording.ts'
import { Refusal } from './refusal.ts'

export interface CheckChoices {
  readonly slack: number
  /** Judge how often it wakes, too: a bench often wakes a device more often than its place does. */
  readonly cadence: boolean
}

/** Throws a Refusal where the cadence is to be judged and has no period. */
export function checkReport(
  file: string,
  outpost: Outpost,
  matched: MatchedRecording,
  { slack, cadence }: CheckChoices,
): CheckReport {
  const { reading, names, measured, wake, always } = matched
  const gate: Gate = gateOf(measured, wake, { slack, always, period_s: cadence ? periodOf(outpost) : null })
  return {
    file,
    recording: reading.file,
    title: outpost.title,
    instrument: reading.instrument,
    slack,
    states: names.states,
    flaws: reading.flawTotals,
    ...gate,
  }
}

const SECONDS_PER_DAY = 86_400
const HOUR_s = 3600

function periodOf(outpost: Outpost): number {
  const { wake } = atBest(outpost)
  if (wake.cadence.schedule?.kind === 'times-of-day' || wake.cadence.events !== null)
    throw new Refusal(
      'Wakes at times of day, or upon events, have no one period by which to judge how often it wakes.',
    )
  const [own] = expectedWakes(wake, null, HOUR_s)
  return SECONDS_PER_DAY / own.wakesPerDay
}
