/**
 * Thrift: the table of voltages and intervals that reports most at the wanted survival, beside the best fixed interval and
 * an ideal that knows the weather, and what becomes of both on other devices under other weather.
 */
import { compilePlan, tablePanel } from '../outlook/compile.ts'
import { atBest } from '../outlook/draw.ts'
import { timesFor } from '../outlook/ensemble.ts'
import type { Share } from '../outlook/outlook.ts'
import { STATE_CELLS } from '../outlook/plan.ts'
import { wintersSurvived } from '../outlook/winters.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { boundOf, type RunBound } from './foresight-bound.ts'
import { addOutcome, noOutcome, playTable, type RunOutcome, type TableOutcome } from './thrift-play.ts'
import { runMaker, type ThriftProblem } from './thrift-runs.ts'
import type { Found, SearchSpace } from './thrift-search.ts'
import type { Table } from './thrift-table.ts'

export interface Rule {
  /** The first row holds above all thresholds. */
  readonly rows: readonly { readonly below_V: number | null; readonly interval_s: number }[]
  readonly reportsPerDay: number
  readonly winters: Share
}

export interface Confirmed {
  readonly seed: number
  readonly runs: number
  readonly years: number
  readonly reportsPerDay: number
  readonly winters: Share
  readonly holds: 'yes' | 'no' | 'cannot tell'
}

export interface Thrift {
  readonly wanted: number
  readonly runs: number
  readonly years: number
  readonly tries: number
  readonly hysteresis_V: number
  readonly resolution_V: number
  readonly offset_V: number
  readonly fixed: readonly { readonly interval_s: number; readonly reportsPerDay: number | null }[]
  readonly bestFixed: Rule | null
  readonly table: Rule | null
  /** What no rule can exceed under the same weather; null where not even an ideal survives as wanted. */
  readonly bound: { readonly reportsPerDay: number } | null
  /** Reports as shares of the bound. */
  readonly reached: { readonly table: number; readonly bestFixed: number } | null
  readonly confirmed: { readonly table: Confirmed; readonly bestFixed: Confirmed } | null
}

/** Thresholds lie where the cell's open-circuit voltage does at 20 °C: from 2 % charged to as full as the charger makes it. */
export function spaceOf(problem: ThriftProblem, mostTries: number): SearchSpace {
  const { ensemble, intervals_s, mostRows, converter } = problem
  const best = atBest(ensemble.outpost)
  const step_s = 3600 / ensemble.stepsPerHour
  const times = timesFor(best.wake, best.place.zone_h, ensemble.calendarYear)
  const { byState, charging } = compilePlan(best, expectedWakes(best.wake, times, step_s), step_s, tablePanel)
  const volts = (state: number) => byState[2 * Math.round(state * STATE_CELLS)]
  return {
    intervals: intervals_s.length,
    mostRows,
    low_V: volts(0.02),
    high_V: volts(charging?.fullState ?? 1),
    grid_V: converter.resolution_V,
    mostTries,
  }
}

/** Plays runs `from` to `to` of a problem with other seeds, each with every table; one list of outcomes a table. */
export function playFresh(
  problem: ThriftProblem,
  tables: readonly Table[],
  from: number,
  to: number,
): RunOutcome[][] {
  const make = runMaker(problem)
  const settings = { hysteresis_V: problem.hysteresis_V, resolution_V: problem.converter.resolution_V }
  const outcomes = tables.map((): RunOutcome[] => [])
  for (let run = from; run < to; run++) {
    const made = make(run)
    for (const [i, table] of tables.entries()) outcomes[i].push(playTable(made, table, settings))
  }
  return outcomes
}

export interface Evidence {
  readonly found: Found
  readonly bounds: readonly RunBound[]
  /** Outcomes of the table and of the best fixed interval with other seeds; null where nothing was found. */
  readonly fresh: { readonly problem: ThriftProblem; readonly outcomes: readonly RunOutcome[][] } | null
}

export function thriftOf(problem: ThriftProblem, { found, bounds, fresh }: Evidence): Thrift {
  const { ensemble, intervals_s, wanted, converter } = problem
  const { runs, years } = ensemble
  const days = runs * years * 365
  const rule = (tried: Found['best']): Rule | null =>
    tried === null
      ? null
      : {
          rows: tried.table.intervals.map((interval, k) => ({
            below_V: k === 0 ? null : tried.table.below_V[k - 1],
            interval_s: intervals_s[interval],
          })),
          reportsPerDay: tried.outcome.reports / days,
          winters: shareOf(tried.outcome),
        }
  const table = rule(found.best)
  const bestFixed = rule(found.bestFixed)
  // Each run in which a rule loses a winter counts one winter lost at least.
  const most = boundOf(bounds, Math.floor((1 - wanted) * runs * years))
  return {
    wanted,
    runs,
    years,
    tries: found.tries,
    hysteresis_V: problem.hysteresis_V,
    resolution_V: converter.resolution_V,
    offset_V: converter.offset_V,
    fixed: found.fixed.map((outcome, i) => ({
      interval_s: intervals_s[i],
      reportsPerDay: outcome === null ? null : outcome.reports / days,
    })),
    bestFixed,
    table,
    bound: most === null ? null : { reportsPerDay: most / days },
    reached:
      most === null || table === null || bestFixed === null
        ? null
        : { table: (table.reportsPerDay * days) / most, bestFixed: (bestFixed.reportsPerDay * days) / most },
    confirmed:
      fresh === null
        ? null
        : {
            table: confirmedBy(fresh.problem, fresh.outcomes[0]),
            bestFixed: confirmedBy(fresh.problem, fresh.outcomes[1]),
          },
  }
}

function confirmedBy({ ensemble, wanted }: ThriftProblem, outcomes: readonly RunOutcome[]): Confirmed {
  const sum = noOutcome()
  for (const outcome of outcomes) addOutcome(sum, outcome)
  const winters = shareOf(sum)
  return {
    seed: ensemble.seed,
    runs: sum.runs,
    years: ensemble.years,
    reportsPerDay: sum.reports / sum.days,
    winters,
    holds: winters.low >= wanted ? 'yes' : winters.high < wanted ? 'no' : 'cannot tell',
  }
}

function shareOf(outcome: TableOutcome): Share {
  const { share, low, high } = wintersSurvived(outcome)
  return { share, low, high }
}
