/** What page and server say to each other about recordings. */
import type { Flaw, FlawTotal, Origin } from '../recording/recording.ts'
import type { SpanStatistics } from '../recording/span.ts'
import type { CheckReport } from '../report/check-report.ts'
import type { LivePicture } from '../report/live-picture.ts'
import type { RecordingReading } from '../report/recording-reading.ts'

/**
 * An upload in pieces, so that it can pause, go on and be dropped: `POST /api/uploads` with {name, bytes} answers {id};
 * `PUT /api/uploads/:id?at=` takes the piece that begins at byte `at` and answers {received}; `DELETE` drops it;
 * `POST /api/uploads/:id/done` puts it into the folder under its name, or the name with a number, and answers {file}.
 */
export interface UploadBegun {
  readonly id: string
  /** No piece may be larger. */
  readonly pieceBytes: number
}

export interface Import {
  /** A source in the folder. */
  readonly file: string
  /** Samples a second, for sources that have no time; null where they have. */
  readonly rate_Hz: number | null
}

export interface Imported {
  readonly file: string
  readonly samples: number
  readonly duration_s: number
  readonly interval_s: number
  readonly origin: Origin
  readonly hasVoltage: boolean
  readonly flaws: readonly Flaw[]
  readonly flawTotals: readonly FlawTotal[]
  readonly notes: readonly string[]
}

/**
 * `GET /api/recording/view?file=&from=&to=&buckets=` (buckets 1..8192): a little-endian Float32Array of 4 × buckets:
 * all minima, all maxima, all means (A; NaN where nothing is known), all covered shares. `from`, `to` in s; what lies
 * outside the recording is not covered.
 * `GET /api/recording/statistics?file=&from=&to=` answers SpanAnswer at once, at any zoom.
 * `GET /api/recording/export?file=&from=&to=&format=csv|npy|parquet` downloads.
 */
export interface SpanAnswer extends SpanStatistics {
  /** 5 %, 50 % and 95 % of the time. */
  readonly quantiles_A: readonly (number | null)[]
  /** Share of time in logarithmic bins of current. */
  readonly histogram: { readonly edges_A: readonly number[]; readonly share: readonly number[] }
}

/** States and cycles of a recording, or of a span of it. */
export interface Reading extends Import {
  readonly from_s: number | null
  readonly to_s: number | null
  readonly voltage_V: number | null
  /** An instrument file of the folder. */
  readonly instrument: string | null
}

/** A stretch of one state, from the start of the recording. */
export interface Band {
  readonly from_s: number
  readonly to_s: number
  /** Index into `reading.states`. */
  readonly state: number
}

export interface ReadAnswer {
  readonly reading: RecordingReading
  /** The first 100 000. */
  readonly bands: readonly Band[]
  /** Wakes laid over each other: counts of samples, row by row from the lowest current; null where there are no cycles. */
  readonly overlay: Overlay | null
}

export interface Overlay {
  readonly duration_s: number
  readonly columns: number
  readonly rows: number
  readonly lowest_A: number
  readonly highest_A: number
  readonly counts: readonly number[]
  readonly wakes: number
}

/** A recording beside an outpost: which state is which step. */
export interface RecordingMatch extends Import {
  readonly instrument: string | null
  readonly outpost: { readonly file: string; readonly text: string; readonly variant: string | null }
  /** `B = sense`, as after `--map`. */
  readonly maps: readonly string[]
  readonly where: 'rail' | 'cell'
}

export interface AdoptPreview {
  /** The states, each with what it was taken for; null where somebody has to say. */
  readonly states: readonly {
    readonly name: string
    readonly words: string
    readonly taken: string | null
    readonly candidates: readonly string[]
  }[]
  /** What a state may be: steps, "rest", standing drains. */
  readonly roles: readonly string[]
  /** The outpost's text with the measured numbers in it; null while it is not clear which state is which. */
  readonly after: string | null
  readonly numbers: readonly {
    readonly path: string
    readonly before: string | null
    readonly after: string
  }[]
  readonly notes: readonly string[]
}

export interface Checked {
  readonly report: CheckReport
  /** As `check` prints it. */
  readonly text: string
  readonly junit: string
}

export interface Live {
  readonly out: string
  readonly picture: LivePicture
  /** Why it cannot be read so far, or why it ended; null where all is well. */
  readonly problem: string | null
  readonly ending: 'ended' | 'stopped' | 'pulled' | 'not written' | null
}
