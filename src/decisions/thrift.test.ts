import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import { ensembleOf } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { cellOf } from '../supply/cell-catalogue.ts'
import { boundOf, runBound } from './foresight-bound.ts'
import { playFresh, spaceOf, thriftOf } from './thrift.ts'
import { thriftDesk } from './thrift-desk.ts'
import { lossesLeft, playTable } from './thrift-play.ts'
import { runMaker, type ThriftProblem, type ThriftRun } from './thrift-runs.ts'
import { searchTable } from './thrift-search.ts'
import { asRead, onGrid, type Table } from './thrift-table.ts'

const MINUTE = 60
const hungry: Outpost<number> = {
  ...sunlit,
  wake: { ...sunlit.wake, steps: [step({ duration_s: 14 })] },
}
const problem: ThriftProblem = {
  ensemble: ensembleOf(exact(hungry), {
    years: 1,
    runs: 30,
    seed: 3,
    stepsPerHour: 1,
    cutDay: 181,
    calendarYear: 2027,
  }),
  intervals_s: [2, 5, 20, 60, 240].map((minutes) => minutes * MINUTE),
  mostRows: 3,
  hysteresis_V: 0.05,
  converter: { resolution_V: 0.01, offset_V: 0.01 },
  wanted: 0.85,
  horizon_years: 3,
}
const settings = { hysteresis_V: problem.hysteresis_V, resolution_V: problem.converter.resolution_V }

async function solved(tries: number) {
  const desk = thriftDesk(problem)
  const found = await searchTable(spaceOf(problem, tries), async (tables) =>
    tables.map((table) => {
      const answer = desk({ kind: 'try', table })
      return answer.kind === 'try' ? answer.outcome : null
    }),
  )
  return found
}

describe('thrift', () => {
  it('reports more than the best fixed interval, and less than the ideal; new seeds confirm it', async () => {
    const found = await solved(60)
    const make = runMaker(problem)
    const runs = Array.from({ length: 30 }, (_, run) => make(run))
    const bounds = runs.map(runBound)
    if (found.best === null || found.bestFixed === null) throw new Error('nothing survives')
    const other = { ...problem, ensemble: { ...problem.ensemble, seed: 4, years: 3 } }
    const outcomes = playFresh(other, [found.best.table, found.bestFixed.table], 0, 30)
    const thrift = thriftOf(problem, { found, bounds, fresh: { problem: other, outcomes } })

    expect(found.best.table.below_V.length).toBeGreaterThan(0)
    expect(thrift.table?.reportsPerDay).toBeGreaterThan(1.05 * (thrift.bestFixed?.reportsPerDay ?? Infinity))
    expect(thrift.reached?.table).toBeLessThanOrEqual(1)
    expect(thrift.reached?.table).toBeGreaterThan(0.7)
    expect(thrift.table?.winters.low).toBeGreaterThanOrEqual(problem.wanted)
    expect(thrift.confirmed?.table.holds).not.toBe('no')
    expect(thrift.confirmed?.table.winters.share).toBeGreaterThan(0.85)

    // Run by run, whatever the table: one that stays up is under the one bound, any at all under the other.
    const tables: Table[] = [
      found.best.table,
      { intervals: [0], below_V: [] },
      { intervals: [2], below_V: [] },
      { intervals: [0, 4], below_V: [3.5] },
    ]
    for (const [i, run] of runs.entries())
      for (const table of tables) {
        const { reports, survived, winters } = playTable(run, table, settings)
        expect(reports).toBeLessThanOrEqual(bounds[i].stopping)
        if (survived === winters) expect(reports).toBeLessThanOrEqual(bounds[i].staying ?? -1)
      }
  })

  it('comes, in constant light, to the closed form of the interval that it sustains', () => {
    const run = constantLight()
    const steps = run.light.length
    // Wakes an hour: what comes in less rest and divider, over what a wake takes beyond rest.
    const wake_C = (0.08 - 20e-6) * 14
    const sustained = ((EFFICIENCY * LIMIT_A - 24e-6) * 3600) / wake_C
    const stored = (0.5 * 7200) / wake_C

    const { staying } = runBound({ ...run, wakesPerStep: Float64Array.of(0.01, 100) })
    expect((staying ?? 0) / (sustained * steps + stored)).toBeCloseTo(1, 6)

    const play = (rates: number[], table: Table) =>
      playTable(
        { ...run, wakesPerStep: Float64Array.from(rates, (rate) => rate * sustained) },
        table,
        settings,
      )
    const fixed: Table = { intervals: [0], below_V: [] }
    expect(play([0.999], fixed).survived).toBe(2)
    expect(play([1.1], fixed).survived).toBeLessThan(2)
    // Two rows about that interval come to it on average, but for the charge that their hysteresis swings through.
    const table = play([3, 0.1], { intervals: [0, 1], below_V: [3.65] })
    expect(table.survived).toBe(2)
    expect(Math.abs(table.reports / (sustained * steps) - 1)).toBeLessThan(0.015)
  })

  it('counts losses as the interval does', () => {
    expect(lossesLeft(0.95, 73)).toBe(0)
    expect(lossesLeft(0.95, 72)).toBe(-1)
    expect(lossesLeft(0.5, 10)).toBeLessThan(5)
  })

  it('lets those runs stop that gain most by it', () => {
    const bounds = [
      { staying: 10, stopping: 12 },
      { staying: 10, stopping: 15 },
      { staying: null, stopping: 7 },
    ]
    expect(boundOf(bounds, 0)).toBeNull()
    expect(boundOf(bounds, 1)).toBe(27)
    expect(boundOf(bounds, 2)).toBe(32)
  })
})

describe('a reading in steps, with an offset', () => {
  it('switches where the converted number would', () => {
    const resolution = 0.01
    const table: Table = { intervals: [0, 1], below_V: [3.6] }
    for (const offset of [-0.013, 0, 0.0071]) {
      const [, row] = asRead(table, [2, 1], offset, 0.05, resolution)
      for (let v = 3.5; v < 3.8; v += 0.00137) {
        const read = onGrid(Math.floor((v + offset) / resolution + 1e-9) * resolution, resolution)
        expect(v < row.below_V).toBe(read < 3.6)
        // At the edge itself both agree but for rounding.
        expect(v > row.below_V + row.hysteresis_V).toBe(read > onGrid(3.65, resolution))
      }
    }
  })
})

const EFFICIENCY = 0.95
const LIMIT_A = 0.001

/** Two years of the same light in every step, more than the charger passes, on an ideal cell whose voltage shows its state. */
function constantLight(): ThriftRun {
  const { supply } = hungry
  const cell = {
    ...cellOf('ideal', 7200),
    openCircuit_V: { x: [0, 1], y: [3.4, 3.9] },
    charging: { low_C: -20, high_C: 60, full_V: 3.9, coulombicEfficiency: EFFICIENCY, rateLimit_per_h: 1 },
  }
  const steady: Outpost<number> = {
    ...hungry,
    supply: {
      ...supply,
      pack: { ...supply.pack, cell, initial: 0.5 },
      regulator: { kind: 'none' },
      brownout: { at_V: 0.1, restart_V: 0.2 },
      charger: { kind: 'linear', dropOut_V: 0.3, limit_A: LIMIT_A, quiescent_A: 0, full_V: 3.9 },
    },
  }
  const run = runMaker({ ...problem, ensemble: { ...problem.ensemble, years: 2, outpost: exact(steady) } })(0)
  return { ...run, offset_V: 0, light: run.light.map(() => 200), air: run.air.map(() => 20) }
}
