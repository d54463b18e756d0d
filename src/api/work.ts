/**
 * Long work: `POST /api/work` with one `Asked` answers with a stream of server-sent events, each one `Told`, until
 * `done` or `refused`. Closing the request cancels the work.
 */
import type { AskedAxes } from '../decisions/sizing-space.ts'
import type { Converter } from '../decisions/thrift-table.ts'
import type { Forecast } from '../report/forecast.ts'
import type { RecordingComparison } from '../report/recording-comparison.ts'
import type { SizingReport } from '../report/sizing.ts'
import type { VariantsReport } from '../report/variants.ts'
import type { MattersReport } from '../workbench/matters.ts'
import type { ThriftReport } from '../workbench/thrift.ts'
import type {
  AdoptPreview,
  Checked,
  Import,
  Imported,
  Live,
  ReadAnswer,
  Reading,
  RecordingMatch,
} from './bench.ts'

/** An outpost by its text, which need not be saved; the files it names are looked for beside `file`. */
export interface OfOutpost {
  readonly file: string
  readonly text: string
  readonly variant: string | null
  readonly seed: number
}

/** How it is played. What is null, or left out, is as the command chooses where it is not told. */
export interface Play {
  readonly years?: number | null
  /** Runs; of `matters` rows of its sample. */
  readonly runs?: number | null
  /** A weather file of the folder, in place of the outpost's own sky. */
  readonly weather?: string | null
}

export interface Sizing {
  /** A share 0.5..0.995; null takes the aim of the file. */
  readonly wanted: number | null
  readonly partsFile: string | null
  readonly objective: string
  /** Of the frontier; null, each of them, for those around the outpost's own. */
  readonly axes?: AskedAxes
}

export interface Thrifting {
  readonly intervals_s: readonly number[] | null
  readonly mostRows: number
  readonly wanted?: number | null
  readonly hysteresis_V?: number
  /** Steps in which firmware reads the battery, and the standard deviation of what a reading is out by. */
  readonly converter?: Converter
}

/** Work that `--html` makes a report of. */
export type Reported =
  | ({ readonly work: 'forecast'; readonly stepsPerHour?: 1 | 6 } & OfOutpost & Play)
  | ({ readonly work: 'variants' } & OfOutpost & Play)
  | ({ readonly work: 'size' } & OfOutpost & Play & Sizing)
  | ({ readonly work: 'read' } & Reading)

export type Asked =
  | Reported
  /** The work is done again: a report holds what was reckoned, and nothing that a page sent. */
  | { readonly work: 'report'; readonly of: Reported }
  | ({ readonly work: 'matters' } & OfOutpost & Play)
  | ({ readonly work: 'thrift' } & OfOutpost & Omit<Play, 'years'> & Thrifting)
  | ({ readonly work: 'handoff' } & OfOutpost & {
        readonly prefix: string
        readonly bcd: boolean
        readonly clock: 'local' | 'utc'
      })
  | ({ readonly work: 'import' } & Import)
  | ({ readonly work: 'adopt' } & RecordingMatch)
  | ({ readonly work: 'check' } & RecordingMatch & { readonly slack: number; readonly cadence: boolean })
  | {
      readonly work: 'compare recordings'
      readonly before: Reading
      readonly after: Reading
      readonly outpost: OfOutpost | null
    }
  /** From a serial port; ends when the request is closed or `POST /api/work/stop?id=` is sent, which keeps all that came. */
  | {
      readonly work: 'record'
      readonly port: string
      readonly baud: number
      /** A CSV file that is not there yet. */
      readonly out: string
      /** Samples a second, for lines that have no time. */
      readonly rate_Hz: number | null
      /** By which it can be stopped: 8 to 64 letters, digits, `-` and `_`. */
      readonly id: string
    }

export interface Answers {
  readonly forecast: Forecast
  readonly variants: VariantsReport
  readonly size: SizingReport
  /** One HTML file. */
  readonly report: { readonly html: string }
  readonly matters: MattersReport
  readonly thrift: ThriftReport
  /** Name to text of each file. */
  readonly handoff: { readonly files: Readonly<Record<string, string>> }
  readonly import: Imported
  readonly read: ReadAnswer
  readonly adopt: AdoptPreview
  readonly check: Checked
  readonly 'compare recordings': RecordingComparison
  readonly record: Live
}

export type Work = Asked['work']

export type Told<W extends Work = Work> =
  | { readonly event: 'progress'; readonly done: number; readonly of: number }
  /** Of a recording under way. */
  | { readonly event: 'picture'; readonly picture: Live }
  | { readonly event: 'done'; readonly answer: Answers[W] }
  /** What was wrong, in sentences; `isOurs` where it is the program's own fault. */
  | { readonly event: 'refused'; readonly why: string; readonly isOurs: boolean }
