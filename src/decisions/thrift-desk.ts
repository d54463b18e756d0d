/** The tasks into which a thrift problem falls, each answered alike on any thread. */
import { type RunBound, runBound } from './foresight-bound.ts'
import { playFresh } from './thrift.ts'
import { type RunOutcome, type TableOutcome, tryTable } from './thrift-play.ts'
import { runMaker, type ThriftProblem, type ThriftRun } from './thrift-runs.ts'
import type { Table } from './thrift-table.ts'

export type ThriftTask =
  | { readonly kind: 'try'; readonly table: Table }
  | { readonly kind: 'bound'; readonly run: number }
  /** Runs of another problem, made and left. */
  | {
      readonly kind: 'fresh'
      readonly problem: ThriftProblem
      readonly tables: readonly Table[]
      readonly from: number
      readonly to: number
    }

export type ThriftAnswer =
  | { readonly kind: 'try'; readonly outcome: TableOutcome | null }
  | { readonly kind: 'bound'; readonly bound: RunBound }
  | { readonly kind: 'fresh'; readonly outcomes: RunOutcome[][] }

/** Answers tasks of `problem`, whose runs are made at the first one that needs them and kept. */
export function thriftDesk(problem: ThriftProblem): (task: ThriftTask) => ThriftAnswer {
  let made: ThriftRun[] | null = null
  const runs = () => {
    if (made === null) {
      const make = runMaker(problem)
      made = Array.from({ length: problem.ensemble.runs }, (_, run) => make(run))
    }
    return made
  }
  const settings = { hysteresis_V: problem.hysteresis_V, resolution_V: problem.converter.resolution_V }
  return (task) => {
    switch (task.kind) {
      case 'try':
        return { kind: 'try', outcome: tryTable(runs(), task.table, settings, problem.wanted) }
      case 'bound':
        return { kind: 'bound', bound: runBound(runs()[task.run]) }
      case 'fresh':
        return { kind: 'fresh', outcomes: playFresh(task.problem, task.tables, task.from, task.to) }
    }
  }
}
