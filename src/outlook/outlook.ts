/** The outlook: what a tally says, as plain data for every report. Shares are 0..1, times as named, charge in C. */
import type { Cause } from './cause.ts'

export interface Interval {
  readonly low: number
  readonly high: number
}

/** A share of many with its 95 % interval (Wilson 1927, on the effective number of independent trials). */
export interface Share extends Interval {
  readonly share: number
}

export interface StateBand {
  /** Day of the year 0..364, or week since the start. */
  readonly at: number
  readonly p5: number
  readonly p25: number
  readonly p50: number
  readonly p75: number
  readonly p95: number
}

export interface BudgetPart {
  readonly name: string
  readonly kind: 'step' | 'rest' | 'standing' | 'supply'
  /** Mean charge a day from the cell, and its standard uncertainty from the file's tolerances. */
  readonly charge_C: number
  readonly u_C: number
}

export type Answer = 'yes' | 'no' | 'cannot tell'

export interface AimAnswer {
  readonly aim: string
  readonly holds: Answer
  readonly why: string
}

export interface Outlook {
  readonly title: string
  readonly seed: number
  readonly runs: number
  readonly years: number
  readonly rechargeable: boolean
  /** Day of the year on which each winter year begins. */
  readonly cutDay: number
  readonly winters: Share & { readonly survived: number; readonly of: number }
  /** Time to the first death; a quantile that lies beyond the years played is null. */
  readonly life: {
    readonly p5_days: number | null
    readonly median_days: number | null
    readonly p95_days: number | null
    /** Runs still alive at the end. */
    readonly beyond: number
  }
  /** Runs that live at least so many years, for each year played. */
  readonly aliveAfterYears: readonly number[]
  readonly lifeByMonth: readonly number[]
  /** Share of first deaths by cause, most frequent first; empty where nothing died. */
  readonly causes: readonly { readonly cause: Cause; readonly share: number }[]
  readonly deathsByDay: readonly { readonly cause: Cause; readonly day: number; readonly deaths: number }[]
  readonly byDay: readonly StateBand[]
  readonly byWeek: readonly StateBand[]
  /** The fourteen days in which the device fares worst. */
  readonly worstFortnight: { readonly startDay: number; readonly downHours: number; readonly p5State: number }
  readonly downHoursPerYear: number
  readonly reportsPerDay: { readonly mean: number; readonly p5: number | null; readonly missed: number }
  /** Smallest voltage in hand over a run: fifth percentile and median over runs. */
  readonly margin_V: { readonly p5: number; readonly median: number } | null
  readonly budget: readonly BudgetPart[]
  /** Mean daily light on the panel by day of year, J/m², and mean air, °C. */
  readonly light_J_m2: readonly number[]
  readonly air_C: readonly number[]
  readonly aims: readonly AimAnswer[]
  readonly imbalance: number
  readonly verdict: string
}
