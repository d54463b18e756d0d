/**
 * What an ensemble keeps of its runs: counts and grids of fixed size, whatever the number of runs, that add up in any
 * grouping. Chunks are merged in order of their first run, so sums do not depend on how threads shared the work.
 */
import { DAYS } from '../sky/calendar.ts'
import { CAUSES } from './cause.ts'

/** Bins of state of charge 0..1, each half a percent wide. */
export const STATE_BINS = 200
export const DAYS_PER_WEEK = 7
/** Bins of reports a day, each a thousandth of one and a half times the scheduled number. */
export const REPORT_BINS = 1000
export const REPORT_SPAN = 1.5
/** Bins of the smallest voltage in hand. */
export const MARGIN_BINS = 600
export const MARGIN_STEP_V = 0.01
export const MARGIN_LOW_V = -1

/** A class for the same reason as `NoFall` in state.ts. */
export class Counts {
  runs = 0
  winters = 0
  survived = 0
  /** Sums over runs of survived², survived · winters and winters²: how alike the winters of one run are. */
  survivedSquared = 0
  survivedWinters = 0
  wintersSquared = 0
  /** The same of the winters over which the aims are judged. */
  judgedWinters = 0
  judgedSurvived = 0
  judgedSurvivedSquared = 0
  judgedSurvivedWinters = 0
  judgedWintersSquared = 0
  /** Reports and hours; of a cell that is not charged, until its first death. */
  reports = 0
  missedReports = 0
  hours = 0
  downHours = 0
}

export interface Grids {
  /** Runs by the day of their first death; the last entry holds those that never died. */
  readonly lifeByDay: Uint32Array
  /** Runs by the day on which the first part was worn out (cell too old, flash); the last entry: never. */
  readonly wornByDay: Uint32Array
  readonly firstDeathsByCause: Uint32Array
  /** Deaths by cause (rows) and day of year (columns). */
  readonly deathsByDay: Uint32Array
  /** Days by day of year (rows) and that day's lowest state of charge (columns). */
  readonly stateByDay: Uint32Array
  /** Weeks since the start (rows) and that week's lowest state of charge (columns). */
  readonly stateByWeek: Uint32Array
  readonly downHoursByDay: Float64Array
  /** Sums by day of year: light on the panel's plane in J/m², mean air in °C, and how many days. */
  readonly lightByDay: Float64Array
  readonly airByDay: Float64Array
  readonly daysByDay: Uint32Array
  /** Runs by reports a day, over the days for which the aims are judged. */
  readonly reportRates: Uint32Array
  /** Runs by smallest voltage in hand, over the same days; runs that were never up are in none. */
  readonly margins: Uint32Array
  /** Charge a day by part of the budget: sums and sums of squares over runs, C and C². */
  readonly budget: Float64Array
  readonly budgetSquared: Float64Array
}

export interface Tally {
  readonly years: number
  readonly counts: Counts
  readonly grids: Grids
  /** Largest |imbalance of charge| over charge moved, of any run. */
  imbalance: number
}

export function emptyTally(years: number, budgetParts: number): Tally {
  const days = years * DAYS
  return {
    years,
    counts: new Counts(),
    grids: {
      lifeByDay: new Uint32Array(days + 1),
      wornByDay: new Uint32Array(days + 1),
      firstDeathsByCause: new Uint32Array(CAUSES.length),
      deathsByDay: new Uint32Array(CAUSES.length * DAYS),
      stateByDay: new Uint32Array(DAYS * (STATE_BINS + 1)),
      stateByWeek: new Uint32Array(Math.ceil(days / DAYS_PER_WEEK) * (STATE_BINS + 1)),
      downHoursByDay: new Float64Array(DAYS),
      lightByDay: new Float64Array(DAYS),
      airByDay: new Float64Array(DAYS),
      daysByDay: new Uint32Array(DAYS),
      reportRates: new Uint32Array(REPORT_BINS + 1),
      margins: new Uint32Array(MARGIN_BINS + 1),
      budget: new Float64Array(budgetParts),
      budgetSquared: new Float64Array(budgetParts),
    },
    imbalance: 0,
  }
}

/** Adds `from` to `into`; both must be of one ensemble. */
export function mergeTally(into: Tally, from: Tally): void {
  for (const key of Object.keys(into.counts) as (keyof Counts)[]) into.counts[key] += from.counts[key]
  for (const key of Object.keys(into.grids) as (keyof Grids)[]) {
    const sum = into.grids[key]
    const part = from.grids[key]
    for (let i = 0; i < sum.length; i++) sum[i] += part[i]
  }
  into.imbalance = Math.max(into.imbalance, from.imbalance)
}
