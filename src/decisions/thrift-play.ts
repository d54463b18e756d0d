/** A thrift table tried on runs: how many winters it survives, and how much it reports. */
import { wilson } from '../numeric/wilson.ts'
import { inOneShape } from '../outlook/plan.ts'
import { initialState } from '../outlook/state.ts'
import { advance } from '../outlook/step.ts'
import { type WinterCounts, wintersSurvived } from '../outlook/winters.ts'
import { DAYS } from '../sky/calendar.ts'
import type { ThriftRun } from './thrift-runs.ts'
import { asRead, type Table } from './thrift-table.ts'

export interface TableSettings {
  readonly hysteresis_V: number
  readonly resolution_V: number
}

/** What came of one run. */
export interface RunOutcome {
  readonly winters: number
  readonly survived: number
  readonly reports: number
}

/** Sums over runs. */
export type TableOutcome = { -readonly [K in keyof WinterCounts]: number } & { reports: number; days: number }

export const noOutcome = (): TableOutcome => ({
  runs: 0,
  winters: 0,
  survived: 0,
  survivedSquared: 0,
  survivedWinters: 0,
  wintersSquared: 0,
  reports: 0,
  days: 0,
})

export function playTable(
  run: ThriftRun,
  table: Table,
  { hysteresis_V, resolution_V }: TableSettings,
): RunOutcome {
  const rows = asRead(table, run.wakesPerStep, run.offset_V, hysteresis_V, resolution_V)
  const plan = inOneShape({ ...run.plan, rows })
  const state = initialState(plan)
  const perYear = (DAYS * 86_400) / plan.step_s
  const winters = run.light.length / perYear
  let survived = 0
  for (let year = 0; year < winters; year++) {
    const span = [year * perYear, (year + 1) * perYear] as const
    const downBefore = state.downSteps
    advance(plan, state, run.light.subarray(...span), run.air.subarray(...span), 0)
    if (state.downSteps === downBefore) survived++
  }
  return { winters, survived, reports: state.wakes * run.reportsPerWake }
}

export function addOutcome(sum: TableOutcome, { winters, survived, reports }: RunOutcome): void {
  sum.runs++
  sum.winters += winters
  sum.survived += survived
  sum.survivedSquared += survived * survived
  sum.survivedWinters += survived * winters
  sum.wintersSquared += winters * winters
  sum.reports += reports
  sum.days += winters * DAYS
}

/**
 * Tries `table` on `runs` in their order; null where the 95 % interval of its share of winters reaches below `wanted`, and as
 * soon as it has lost so many winters that it must.
 */
export function tryTable(
  runs: readonly ThriftRun[],
  table: Table,
  settings: TableSettings,
  wanted: number,
): TableOutcome | null {
  const winters = runs.reduce(
    (sum, { light, plan }) => sum + (light.length * plan.step_s) / (DAYS * 86_400),
    0,
  )
  const mostLost = lossesLeft(wanted, winters)
  const outcome = noOutcome()
  for (const run of runs) {
    addOutcome(outcome, playTable(run, table, settings))
    if (outcome.winters - outcome.survived > mostLost) return null
  }
  return wintersSurvived(outcome).low >= wanted ? outcome : null
}

/** Most losses in `trials` at which Wilson's lower bound is still `wanted`; −1 where not even none will do. */
export function lossesLeft(wanted: number, trials: number): number {
  let lost = -1
  while (lost < trials && wilson(trials - lost - 1, trials).low >= wanted) lost++
  return lost
}
