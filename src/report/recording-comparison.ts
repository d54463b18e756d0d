/** Two recordings side by side, as plain data: what `--json` prints and the terminal shows. */
import type { Differences } from '../decisions/compare-variants.ts'
import type { Outlook } from '../outlook/outlook.ts'
import type { Difference } from '../recording/difference.ts'
import type { RecordingReading } from './recording-reading.ts'

/** The same outpost with what each recording shows in place of its steps and rest, through the same weather. */
export interface OutlookPair {
  readonly file: string
  readonly title: string
  readonly rechargeable: boolean
  readonly runs: number
  readonly years: number
  readonly seed: number
  readonly before: OutlookBrief
  readonly after: OutlookBrief
  /** After less before, run by run. */
  readonly differences: Differences
}

export type OutlookBrief = Pick<Outlook, 'verdict' | 'winters' | 'life' | 'reportsPerDay'>

export interface RecordingComparison {
  readonly before: RecordingReading
  readonly after: RecordingReading
  readonly difference: Difference
  /** Null where no outpost file was given. */
  readonly outlook: OutlookPair | null
  readonly verdict: string
}
