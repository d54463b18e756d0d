import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import { compilePlan, tablePanel } from '../outlook/compile.ts'
import { drawn, probabilitiesOf } from '../outlook/draw.ts'
import { wakesOf } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { cellOf } from '../supply/cell-catalogue.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import type { ThriftRow } from '../wake/wake.ts'
import { type DesignSpace, type Picked, playerOf, type Survived } from './common-runs.ts'
import { playWinters } from './play-winters.ts'
import { remember } from './remember.ts'
import { type RunWeather, weatherOf } from './run-weather.ts'
import { designAt } from './sizing.ts'
import { withCapacity } from './sizing-axes.ts'
import { isSteady, onlySaves, type Strain, SureSurvival } from './sure-survival.ts'

const { panel } = sunlit.supply
if (panel === null) throw new Error('the design has no panel')

const settings = { seed: 3, stepsPerHour: 1, cutDay: 181, calendarYear: 2027 }
const row = (wakesPerStep: number, pattern: Float64Array | null = null): ExpectedWakes => ({
  below_V: Infinity,
  hysteresis_V: 0,
  wakesPerStep,
  pattern,
  wakesPerDay: 24 * wakesPerStep,
  missedPerDay: 0,
  reportsPerDay: 24 * wakesPerStep,
})
const strain = (over: Partial<Strain> = {}): Strain => ({
  kind: 0,
  times: 1,
  rows: [row(4)],
  lasts_days: Infinity,
  ...over,
})

describe('what is sure of a run', () => {
  const sure = new SureSurvival()
  sure.learn(7, 2, strain(), true)
  sure.learn(7, 3, strain(), false)

  it('survives with a larger panel and with fewer wakes, too', () => {
    expect(sure.of(7, 2, strain({ times: 1.3 }))).toBe('survives')
    expect(sure.of(7, 2, strain({ rows: [row(3)] }))).toBe('survives')
    expect(sure.of(7, 2, strain({ times: 0.9 }))).toBe('unknown')
    expect(sure.of(7, 2, strain({ times: 1.3, rows: [row(5)] }))).toBe('unknown')
  })

  it('fails with a smaller panel and with more wakes, too', () => {
    expect(sure.of(7, 3, strain({ times: 0.9, rows: [row(5)] }))).toBe('fails')
    expect(sure.of(7, 3, strain({ times: 1.1 }))).toBe('unknown')
  })

  it('says nothing of other runs, cells, panels, times of day or memories', () => {
    expect(sure.of(8, 2, strain())).toBe('unknown')
    expect(sure.of(7, 4, strain())).toBe('unknown')
    expect(sure.of(7, 2, strain({ kind: 1 }))).toBe('unknown')
    expect(sure.of(7, 2, strain({ rows: [row(4, new Float64Array(8760))] }))).toBe('unknown')
    expect(sure.of(7, 2, strain({ lasts_days: 100 }))).toBe('unknown')
  })
})

it('a table that only saves has fewer wakes in every row', () => {
  expect(onlySaves([row(4)])).toBe(true)
  expect(onlySaves([row(4), row(1)])).toBe(true)
  expect(onlySaves([row(4), row(5)])).toBe(false)
  expect(onlySaves([row(4, new Float64Array(8760)), row(1)])).toBe(false)
})

it('a cell is steady that carries the device for three days', () => {
  const { wake, place } = sunlit
  const plan = compilePlan(sunlit, wakesOf(wake, place, settings), 3600)
  // 1 mA at rest and six wakes an hour of 0.6 C each: 2 mA, 518.4 C in three days.
  const byVoltage = plan.byVoltage.map((_, i) => (i % 2 === 0 ? 0.001 : 0.6))
  const held = (capacity_C: number) => isSteady({ ...plan, byVoltage, rows: [row(6)], capacity_C })
  expect(held(518)).toBe(false)
  expect(held(519)).toBe(true)
})

interface Chosen {
  readonly chemistry: 'Li-ion' | 'LiFePO4'
  readonly capacity_C: number
  readonly initial: number
  readonly panel_A: number
  readonly send_s: number
  readonly send_A: number
  readonly every_s: number
  readonly thrift: readonly ThriftRow<number>[]
}

/** A device on 58° N. */
function design(over: Chosen): Outpost {
  const full_V = over.chemistry === 'Li-ion' ? 4.2 : 3.6
  if (panel === null) throw new Error('the design has no panel')
  return exact({
    ...sunlit,
    wake: {
      ...sunlit.wake,
      steps: [step({ duration_s: over.send_s, current_A: over.send_A })],
      cadence: { schedule: { kind: 'rate', period_s: over.every_s }, events: null, thrift: over.thrift },
      rest_A: 50e-6,
      standing: [],
    },
    supply: {
      ...sunlit.supply,
      pack: {
        ...sunlit.supply.pack,
        cell: cellOf(over.chemistry, over.capacity_C),
        capacity_C: over.capacity_C,
        initial: over.initial,
      },
      regulator: { kind: 'linear', output_V: 2.8, dropOut_V: 0.1, quiescent_A: 5e-6 },
      brownout: { at_V: 2.6, restart_V: 3.2 },
      charger: { kind: 'linear', dropOut_V: 0.3, limit_A: 0.5, quiescent_A: 3e-6, full_V },
      panel: {
        ...panel,
        maximumPower_A: over.panel_A,
        shortCircuit_A: 1.1 * over.panel_A,
      },
    },
  })
}

/** Panels of so many times the design's own. */
const spaceOf = (
  outpost: Outpost,
  times: readonly number[],
  over: Partial<DesignSpace> = {},
): DesignSpace => ({
  ...settings,
  years: 1,
  outpost,
  packs: [outpost.supply.pack],
  panels: times.map((factor) => ({
    panel: outpost.supply.panel as NonNullable<typeof outpost.supply.panel>,
    times: factor,
  })),
  intervals_s: [null],
  ...over,
})

const tabler = remember(tablePanel, (...given) => JSON.stringify(given))

/** Run 0 of a design, played with nothing known of it. */
function replayed(space: DesignSpace, pick: Picked, sky: RunWeather): Survived {
  const drawnDesign = drawn(designAt(space, pick), probabilitiesOf(space.seed, 0))
  const plan = compilePlan(drawnDesign, wakesOf(drawnDesign.wake, drawnDesign.place, space), 3600, tabler)
  const weather = { ...sky, perDay: 24, cutDay: space.cutDay }
  const { winters, survived } = playWinters(plan, {
    ...weather,
    flashLife_days: Infinity,
    endsWhenDown: false,
  })
  return { runs: 1, winters, survived }
}

describe('a run that is not played because it is sure to survive', () => {
  it('ends as it does when it is played, in whatever order designs are asked for', () => {
    const seen = { survived: 0, lost: 0 }
    const thrift = fc
      .array(
        fc.record({
          below_V: fc.double({ min: 3, max: 3.7, noNaN: true }),
          slower: fc.double({ min: 1.5, max: 5, noNaN: true }),
          hysteresis_V: fc.double({ min: 0, max: 0.1, noNaN: true }),
        }),
        { maxLength: 2 },
      )
      .map((rows) => rows.sort((a, b) => b.below_V - a.below_V))
    fc.assert(
      fc.property(
        fc.record({
          chemistry: fc.constantFrom('Li-ion' as const, 'LiFePO4' as const),
          capacity_C: fc.integer({ min: 500, max: 10_000 }),
          initial: fc.double({ min: 0.4, max: 1, noNaN: true }),
          panel_A: fc.double({ min: 0.002, max: 0.03, noNaN: true }),
          send_s: fc.double({ min: 1, max: 20, noNaN: true }),
          send_A: fc.double({ min: 0.02, max: 0.12, noNaN: true }),
          every_s: fc.integer({ min: 300, max: 1800 }),
        }),
        thrift,
        (chosen, rows) => {
          let interval_s = chosen.every_s
          const table = rows.map(({ below_V, hysteresis_V, slower }) => {
            interval_s *= slower
            return { below_V, hysteresis_V, interval_s }
          })
          const outpost = design({ ...chosen, thrift: table })
          const { pack } = outpost.supply
          const space = spaceOf(outpost, [0.5, 1, 2], {
            packs: [pack, withCapacity(pack, 3 * chosen.capacity_C)],
            intervals_s: [0.7 * chosen.every_s, null, 1.4 * chosen.every_s],
          })
          const worstFirst = [0, 1].flatMap((p) =>
            [0, 1, 2].flatMap((interval) =>
              [0, 1, 2].map((size): Picked => ({ pack: p, panel: size, interval })),
            ),
          )
          const sky = weatherOf(space)(0)
          const played = worstFirst.map((pick) => replayed(space, pick, sky))
          expect(playerOf(space)({ picks: worstFirst, from: 0, to: 1 })).toEqual(played)
          const bestFirst = worstFirst.toReversed()
          expect(playerOf(space)({ picks: bestFirst, from: 0, to: 1 })).toEqual(played.toReversed())
          for (const { survived, winters } of played) {
            seen.survived += survived
            seen.lost += winters - survived
          }
        },
      ),
      { numRuns: 20, seed: 12 },
    )
    expect(seen.survived).toBeGreaterThan(80)
    expect(seen.lost).toBeGreaterThan(80)
  })

  it('is not one that survived by its thrift table: a larger panel can slow down too late', () => {
    const outpost = design({
      chemistry: 'LiFePO4',
      capacity_C: 18_000,
      initial: 0.8,
      panel_A: 0.004,
      send_s: 12,
      send_A: 0.017,
      every_s: 400,
      thrift: [{ below_V: 3.22, interval_s: 1000, hysteresis_V: 0.08 }],
    })
    const space = spaceOf(outpost, [0.5, 0.67, 1.2], { years: 2 })
    const picks = [0, 1, 2].map((size): Picked => ({ pack: 0, panel: size, interval: 0 }))
    const counts = playerOf(space)({ picks, from: 0, to: 1 })
    expect(counts.map(({ survived }) => survived)).toEqual([2, 1, 2])
  })
})
