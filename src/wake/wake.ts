/**
 * What the device does, as plain data. `N` is `Uncertain` in a design as written and `number` once drawn or taken at
 * its best value. Seconds, amperes (at the device's own rail, positive out of the supply), coulombs.
 */
import type { Uncertain } from '../quantity/uncertain.ts'

export interface Peak<N = Uncertain> {
  readonly current_A: N
  readonly duration_s: N
}

export interface Retries<N = Uncertain> {
  /** Probability that one try fails, 0 to 1. */
  readonly probability: N
  /** Further tries after the first; when the last fails the wake ends without its report. */
  readonly times: number
  /** Waiting time before a further try, at the rest current. */
  readonly backoff_s: N
  /** How long a failed try lasts, at the step's current without its peak. */
  readonly failedDuration_s: N
}

/** One part of a wake. */
export interface Step<N = Uncertain> {
  readonly name: string
  readonly duration_s: N
  readonly current_A: N
  /** Part of the step, at its start. */
  readonly peak: Peak<N> | null
  /** Probability that the step happens in a wake whose turn it is, 0 to 1. */
  readonly chance: N
  /** The step happens in every n-th wake only: wakes count from 1, so it has its turn in wakes n, 2n, … */
  readonly every: number
  readonly retries: Retries<N> | null
  /** Readings delivered when the step succeeds (a batch of six sends 6). */
  readonly reports: number
  readonly rail: string | null
  readonly note: string | null
}

export interface Drain<N = Uncertain> {
  readonly name: string
  readonly current_A: N
  /** `cell`: taken straight from the cell, before any regulator (a divider); `rail`: behind the regulator. */
  readonly from: 'cell' | 'rail'
}

export interface ClockTime {
  readonly hour: number
  readonly minute: number
  readonly second: number
}

/** The rule that decides when the next scheduled wake is. */
export type Schedule<N = Uncertain> =
  /** Rests so long after the work is done. */
  | { readonly kind: 'rest'; readonly rest_s: N }
  /** Wakes on a fixed grid; when the work overruns, the wakes that it covers are missed. */
  | { readonly kind: 'rate'; readonly period_s: N }
  /** An alarm on a clock with minute resolution fires at the N-th change of the minute after the work is done. */
  | { readonly kind: 'clock-minutes'; readonly minutes: number }
  /** Local times of day; the zone is an IANA name, so that daylight saving is honoured. */
  | { readonly kind: 'times-of-day'; readonly times: readonly ClockTime[]; readonly zone: string }

export interface ThriftRow<N = Uncertain> {
  /** The row holds while the battery, under the rest load, is below this. */
  readonly below_V: N
  /** It is left again only above `below_V + hysteresis_V`. */
  readonly hysteresis_V: N
  /** Replaces the schedule's own interval (its rest, period or minutes), in seconds. */
  readonly interval_s: number
}

export interface Cadence<N = Uncertain> {
  readonly schedule: Schedule<N> | null
  /** Random events (Poisson) that also wake the device; one that arrives while it works is served by the same wake. */
  readonly events: { readonly perDay: N } | null
  /** Sorted by falling voltage; empty when the interval does not follow the battery. */
  readonly thrift: readonly ThriftRow<N>[]
}

/** What must survive a rest, and the memory that holds it. Written once in each wake. */
export interface Kept {
  readonly name: string
  readonly bytes: number
  readonly memory: 'ram' | 'clock-ram' | 'flash' | 'eeprom' | 'fram'
  /** Erase cycles one page bears; null where the memory does not wear. */
  readonly endurance: number | null
  readonly pageBytes: number | null
  /** Pages over which the writes are spread. */
  readonly pages: number
}

export interface Wake<N = Uncertain> {
  readonly steps: readonly Step<N>[]
  /** Steps put before `steps` on each wake when the device restarts. */
  readonly boot: readonly Step<N>[]
  readonly cadence: Cadence<N>
  /** Current between wakes, standing drains not included. */
  readonly rest_A: N
  readonly standing: readonly Drain<N>[]
  readonly resume: 'continue' | 'restart'
  readonly keeps: readonly Kept[]
}
