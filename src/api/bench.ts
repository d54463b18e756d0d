/** What page and server say to each other about recordings. */
import type { CoarseHistogram } from '../recording/histogram-coarse.ts'
import type { Flaw, FlawTotal, Origin } from '../recording/recording.ts'
import type { SpanStatistics } from '../recording/span.ts'
import type { CheckReport } from '../report/check-report.ts'
import type { LivePicture } from '../report/live-picture.ts'
import type { RecordingReading, StateBands } from '../report/recording-reading.ts'

/**
 * An upload in pieces, so that it can pause, go on and be dropped: `POST /api/uploads` with {name, bytes} answers
 * UploadBegun; `PUT /api/uploads/:id?at=` takes the piece that begins at byte `at` and answers UploadReceived, as does
 * `GET /api/uploads/:id`; `DELETE` drops it; `POST /api/uploads/:id/done` puts it into the folder under its name, or the
 * name with a number, and answers UploadKept. Pieces come in order; one that begins elsewhere is refused. What nothing
 * comes to for an hour is dropped.
 */
export interface UploadBegun {
  readonly id: string
  /** No piece may be larger. */
  readonly pieceBytes: number
}

export interface UploadReceived {
  /** Where the next piece begins. */
  readonly received: number
}

export interface UploadKept {
  readonly file: string
}

export interface Import {
  /** A source in the folder. */
  readonly file: string
  /** Samples a second, for sources that have no time; null where they have. */
  readonly rate_Hz: number | null
}

/** `GET /api/recording?file=&rate=` answers at once with one that was imported before, and with null otherwise. */
export interface Imported {
  readonly file: string
  readonly samples: number
  readonly duration_s: number
  readonly interval_s: number
  /** Every sample comes at the usual step. */
  readonly even: boolean
  readonly origin: Origin
  readonly hasVoltage: boolean
  readonly flaws: readonly (Flaw & { readonly at_s: number | null })[]
  readonly flawTotals: readonly FlawTotal[]
  readonly notes: readonly string[]
  readonly min_A: number | null
  readonly max_A: number | null
}

/**
 * Of a recording that was imported with `rate` (left out where it was null), `from` and `to` in s:
 *
 * `GET /api/recording/view?file=&rate=&from=&to=&buckets=` (buckets 1..8192): a little-endian Float32Array of
 * 4 × buckets: all minima, all maxima, all means (A; NaN where nothing is known), all covered shares. What lies outside
 * the recording is not covered. With `&exact=yes`, a span that holds no more samples than 2 × buckets is answered by the
 * samples themselves: a Float64Array of all starts and all ends of their holds (s) and all currents (A; NaN where the
 * source had no number). The header `x-holds` says which: `buckets` or `samples`.
 *
 * `GET /api/recording/statistics?file=&rate=&from=&to=` answers SpanAnswer at once, at any zoom.
 *
 * `GET /api/recording/export?file=&rate=&from=&to=&format=csv|npy|parquet` downloads.
 */
export interface SpanAnswer extends SpanStatistics {
  /** 5 %, 50 % and 95 % of the time. */
  readonly quantiles_A: readonly (number | null)[]
  readonly histogram: CoarseHistogram
}

/** `GET /api/ports` answers the serial ports that the machine has; others may be typed. */
export interface Ports {
  readonly ports: readonly string[]
}

/** States and cycles of a recording, or of a span of it. */
export interface Reading extends Import {
  readonly from_s: number | null
  readonly to_s: number | null
  readonly voltage_V: number | null
  /** An instrument file of the folder. */
  readonly instrument: string | null
  /** Where its range was set by hand: `2 min=400 mA`. */
  readonly ranges?: readonly string[]
}

export interface ReadAnswer {
  /** Of its cycles the first `MOST_CYCLES`. */
  readonly reading: RecordingReading
  /** How many cycles there are in all. */
  readonly cycles: number
  /** The first `MOST_BANDS` stretches. */
  readonly bands: StateBands
  /** Null where there are no wakes. */
  readonly density: Density | null
}

/** Longer lists would take a page longer than they help. */
export const MOST_CYCLES = 20_000
export const MOST_BANDS = 100_000

/** Wakes laid over each other: counts of samples, row by row from the lowest current. */
export interface Density {
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
  /** Where the instrument's range was set by hand: `2 min=400 mA`. */
  readonly ranges?: readonly string[]
  readonly where: 'rail' | 'cell'
}

export interface AdoptPreview {
  /** The states, each with what it was taken for; null where somebody has to say. */
  readonly states: readonly {
    readonly name: string
    readonly words: string
    readonly taken: string | null
    readonly candidates: readonly string[]
    /** Why somebody has to say; null where nobody has to. */
    readonly doubt: string | null
  }[]
  /** What a state may be: steps, "rest", standing drains, "none". */
  readonly roles: readonly string[]
  /** Null while it is not clear which state is which. */
  readonly adoption: {
    /** The outpost's text with the measured numbers in it. */
    readonly after: string
    /** Lines of a unified difference; empty where the text says all of it already. */
    readonly difference: string
    readonly numbers: readonly {
      readonly path: string
      readonly before: string | null
      readonly after: string
    }[]
    readonly notes: readonly string[]
  } | null
}

export interface Checked {
  readonly report: CheckReport
  /** As `check` prints it. */
  readonly text: string
  readonly junit: string
}

/** Of a recording under way, and of one that ended. */
export interface Live {
  readonly out: string
  /** Null where nothing came in a bin: JSON has no NaN. */
  readonly picture: Omit<LivePicture, 'highest_A'> & { readonly highest_A: readonly (number | null)[] }
  /** Why it cannot be read so far, or why it ended; null where all is well. */
  readonly problem: string | null
  readonly ending: 'ended' | 'stopped' | 'pulled' | 'not written' | null
}
