/** Everything a report of a forecast tells, as plain data: what `--json` prints, the terminal and the page show. */
import type { Outlook } from '../outlook/outlook.ts'
import type { WaveSegment } from '../wake/wave.ts'
import type { ExpectedReports } from './expected-reports.ts'

export interface Assumption {
  readonly path: string
  readonly text: string
  readonly source: string
}

export interface Remark {
  readonly code: string
  readonly message: string
  readonly cure: string
}

/** What came of the weather file's own days, played once in their order. */
export interface Replay {
  readonly title: string
  readonly alive: boolean
  readonly downHours: number
  readonly lowestState: number
  readonly lowestDay: number
}

export interface Forecast {
  readonly file: string
  readonly outlook: Outlook
  /** A wake in which all goes well. */
  readonly wave: readonly WaveSegment[]
  /** One wake at the device's rail: expectations, and the standard deviation of its charge from wake to wake. */
  readonly wake: { readonly duration_s: number; readonly charge_C: number; readonly deviation_C: number }
  readonly wakesPerDay: number
  readonly reports: ExpectedReports
  /** Of the whole pack, new. */
  readonly capacity_C: number
  readonly weather: string
  /** Null where the weather is not from a file, or light does not matter. */
  readonly replay: Replay | null
  readonly warnings: readonly Remark[]
  readonly cautions: readonly string[]
  readonly assumptions: readonly Assumption[]
}
