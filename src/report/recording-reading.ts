/** Everything the reading of a recording tells, as plain data: what `--json` prints, the terminal and the page show. */
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Cycles } from '../recording/cycles.ts'
import type { Burden } from '../recording/instrument-burden.ts'
import type { Flaw, FlawTotal, Origin } from '../recording/recording.ts'
import type { SpanStatistics } from '../recording/span.ts'
import type { State } from '../recording/states-summary.ts'

export interface StateReading extends State {
  /** A, B, … by rising current. */
  readonly name: string
  /** The state between wakes. */
  readonly rests: boolean
  /** The mean with all of its uncertainty: scatter, and the instrument's part where the instrument is known. */
  readonly current: Uncertain
  /** Range that it was measured on; null where no instrument is stated, or none of its ranges reaches so far. */
  readonly range: string | null
  /** Part of its height that a pulse as short as a visit reaches behind the range's bandwidth; null where not known. */
  readonly heightSeen: number | null
  /** What the instrument did to the device; null where its burden or the supply is not known. */
  readonly burden: { readonly ifResistance: Burden; readonly ifConstantPower: Burden } | null
}

/** A charge per cycle or in all, with its standard uncertainty in C; null where nothing is known of it. */
export interface ChargeReading {
  readonly charge_C: number
  readonly u_C: number | null
}

export interface RecordingReading {
  readonly file: string
  readonly samples: number
  readonly interval_s: number
  readonly even: boolean
  readonly origin: Origin
  /** What was read of it: all, or a span. */
  readonly span: SpanStatistics
  /** Current not exceeded for 5 %, half and 95 % of the time; null where nothing is known. */
  readonly quantiles_A: readonly (number | null)[]
  readonly charge: ChargeReading
  readonly instrument: string | null
  readonly states: readonly StateReading[]
  readonly cycles: Cycles
  /** Mean charge of a whole cycle; null with fewer than two. */
  readonly cycleCharge: ChargeReading | null
  /** Times from the start of what was read, samples and lines from the start of the recording. */
  readonly flaws: readonly (Flaw & { readonly at_s: number | null })[]
  readonly flawTotals: readonly FlawTotal[]
  readonly notes: readonly string[]
  readonly verdict: string
}

/** Which state when: stretch k is of state `states[k]` from `times_s[k]` to `times_s[k + 1]`, from the start of the recording. */
export interface StateBands {
  /** One more than there are stretches; rising. */
  readonly times_s: readonly number[]
  /** Indices into the states of the reading. */
  readonly states: readonly number[]
}
