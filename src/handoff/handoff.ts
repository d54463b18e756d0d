/**
 * What firmware is given, as plain data in whole numbers: millivolts, seconds, nanoamperes, nanocoulombs. The C texts
 * and the JSON are written from it.
 */

/** A whole number with the central 90 % of its draws around it; all three alike where nothing is uncertain. */
export interface Band {
  readonly low: number
  readonly best: number
  readonly high: number
}

/** One interval of the cadence. The first is the schedule's own; the others are the rows of the thrift table. */
export interface Row {
  /** Entered from the row before when the battery reads below this; null for the first. */
  readonly below_mV: number | null
  /** Left again to the row before when it reads above this. */
  readonly above_mV: number | null
  /** Null where the wakes follow times of day or events. */
  readonly interval_s: number | null
  /** Expected reports of a day spent in this row, in thousandths. */
  readonly reports_milli: Band
}

/** How the next alarm is found from the interval; `times_s` are seconds since midnight of the clock, rising. */
export type Alarm =
  | { readonly kind: 'rest' | 'rate' | 'clock-minutes' }
  | { readonly kind: 'times-of-day'; readonly times_s: readonly number[]; readonly zone: string }

export type ClockKeeps = 'local time' | 'UTC'

/** All voltages as firmware reads them: at the battery, under the rest load. */
export interface Latch {
  /** Where the rail meets the brown-out threshold with next to no load: the threshold and the regulator's drop-out. */
  readonly brownout_mV: number
  /** Below it the next wake would brown out, or the cell is empty. */
  readonly low_mV: number
  /** Once low, work begins again from here on: the file's "restart above", and never below `low_mV`. */
  readonly restart_mV: number
  /** What sets `low_mV`. */
  readonly because: string
  /** Of the coldest month's nights, for which `low_mV` was worked out. */
  readonly temperature_C: number
  /** In mild weather (20 °C) the latch stops with this share of the charge left that a wake could still use. */
  readonly heldBack: number
}

/** Everything at the battery's terminals. */
export interface Budget {
  /** What one wake adds, on average, to what rest would have taken meanwhile. */
  readonly wake_nC: Band
  /** Flows always: rest, standing drains, idle regulator, leakage. */
  readonly rest_nA: Band
  /** Of a half full battery at the year's mean temperature. */
  readonly selfDischarge_nA: Band
  /** Flows too while it is dark; 0 without a charger. */
  readonly chargerNight_nA: Band
  /** Of the whole battery, new. */
  readonly capacity_mC: Band
}

export interface ChecklistItem {
  readonly what: string
  readonly why: string
  /** Where in the file it comes from; null for what is common practice. */
  readonly path: string | null
}

export interface ChecklistPart {
  readonly title: string
  readonly items: readonly ChecklistItem[]
}

export interface Remark {
  readonly code: string
  readonly path: string
  readonly message: string
  readonly cure: string
}

/** Why a design cannot be handed over. */
export interface Obstacle {
  readonly code: string
  /** Keys and indices in the outpost file. */
  readonly path: readonly (string | number)[]
  readonly message: string
  readonly expected: string
  readonly cure: string
}

/** Where the numbers come from. */
export interface Origin {
  readonly title: string
  readonly file: string
  /** First digits of the file's SHA-256. */
  readonly fingerprint: string
  readonly variant: string | null
  readonly version: string
  readonly seed: number
  readonly draws: number
}

export interface Handoff {
  readonly origin: Origin
  readonly clock: ClockKeeps
  /** Null where only events wake the device. */
  readonly alarm: Alarm | null
  readonly events: boolean
  readonly rows: readonly Row[]
  readonly latch: Latch
  readonly budget: Budget
  readonly checklist: readonly ChecklistPart[]
  readonly remarks: readonly Remark[]
}
