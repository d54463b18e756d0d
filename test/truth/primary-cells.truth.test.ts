/**
 * The built-in cells against facts of the trade: discharge tests of IEC 60086-2 as bounds, Peukert's law for lead-acid,
 * and sums that everyone does on paper. Sources and provenance are in truth/primary-cells/README.md.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { cellOf, findCell } from '../../src/supply/cell-catalogue.ts'
import { type Discharge, discharge, type Phase } from '../../src/supply/discharge.ts'
import type { Load } from '../../src/supply/load.ts'
import { shareKept } from '../../src/supply/self-discharge.ts'
import type { Cell } from '../../src/supply/supply.ts'

const HOUR_S = 3600
const DAY_S = 86400
const COULOMBS_PER_mAh = 3.6

const TOLERANCE = {
  // A fresh cell meets the standard's minimum, and none is this much better; the bounds are from memory.
  durationOverMinimum: { least: 1, most: 1.6 },
  // Relative: the kinetic model is not a power law; two constants fit an exponent over a factor of 20 in current.
  peukert: 0.025,
  // Relative: rounding of what is quoted ("4 d 9 h", "13.8 d").
  practice: { alwaysAwake: 1e-6, minutely: 0.005, fiveMinutely: 0.005 },
  // Relative: the loss is taken after each step of up to a day, so half a day's loss too late.
  selfDischarge: 2e-5,
}

interface Row {
  readonly id: string
  readonly cell: string
  readonly regime: string
  readonly burst: readonly {
    readonly current_A?: number
    readonly resistance_Ohm?: number
    readonly power_W?: number
    readonly duration_s: number
  }[]
  readonly times: number
  readonly rest_s: number
  readonly end_V: number
  readonly minimum_h: number
}

const rows: Row[] = JSON.parse(
  readFileSync(new URL('../../truth/primary-cells/iec60086-2.json', import.meta.url), 'utf8'),
)

function loadOf({ current_A, resistance_Ohm, power_W }: Row['burst'][number]): Load | null {
  if (current_A !== undefined) return { kind: 'current', current_A }
  if (resistance_Ohm !== undefined) return { kind: 'resistance', resistance_Ohm }
  return power_W === undefined ? null : { kind: 'power', power_W }
}

function patternOf(row: Row): Phase[] {
  const burst = row.burst.map((part) => ({ load: loadOf(part), duration_s: part.duration_s }))
  const bursts = Array.from({ length: row.times }, () => burst).flat()
  return row.rest_s > 0 ? [...bursts, { load: null, duration_s: row.rest_s }] : bursts
}

const at20 = (cell: Cell, pattern: readonly Phase[], end_V: number): Discharge =>
  discharge({ cell, pattern, temperature_C: 20, end_V, fade: 0, longest_s: Infinity })

const drawing = (current_A: number, duration_s: number): Phase => ({
  load: { kind: 'current', current_A },
  duration_s,
})

describe('IEC 60086-2 discharge tests (minimum average durations from memory)', () => {
  it.each(rows)('$id: $regime to $end_V V lasts at least $minimum_h h under load', (row) => {
    const cell = findCell(row.cell)
    expect(cell).not.toBeNull()
    const run = at20(cell!, patternOf(row), row.end_V)
    const ratio = run.underLoad_s / HOUR_S / row.minimum_h
    expect(ratio).toBeGreaterThanOrEqual(TOLERANCE.durationOverMinimum.least)
    expect(ratio).toBeLessThanOrEqual(TOLERANCE.durationOverMinimum.most)
  })
})

describe("Peukert's law (1897), t = H (C / I H)^k: a 7 Ah, k = 1.15 lead-acid battery", () => {
  // Rated 7 Ah at its 20 h rate, so a little more at none. The exponent is from memory.
  const battery = cellOf('VRLA', 1.05 * 7000 * COULOMBS_PER_mAh)
  it.each([
    [0.35, 7],
    [1.4, 5.685766774],
    [7, 4.46625526],
  ])('at %d A gives %d Ah', (current_A, expected_Ah) => {
    const run = at20(battery, [drawing(current_A, DAY_S)], 1.75)
    expect(Math.abs(run.delivered_C / 1000 / COULOMBS_PER_mAh / expected_Ah - 1)).toBeLessThanOrEqual(
      TOLERANCE.peukert,
    )
  })
})

describe('common practice (no source): a 500 mAh cell, awake at 25 mA, asleep at 0.7 mA', () => {
  const cell = cellOf('ideal', 500 * COULOMBS_PER_mAh)
  const cycle = (period_s: number) => [drawing(0.025, 10), drawing(0.0007, period_s - 10)]
  const { practice } = TOLERANCE
  it.each([
    ['always awake: 20 h', [drawing(0.025, HOUR_S)], 20 * HOUR_S, practice.alwaysAwake],
    ['10 s in each minute: 4 d 9 h', cycle(60), 4 * DAY_S + 9 * HOUR_S, practice.minutely],
    ['10 s in each five minutes: 13.8 d', cycle(300), 13.8 * DAY_S, practice.fiveMinutely],
  ])('%s', (_, pattern, expected_s, tolerance) => {
    const run = at20(cell, pattern, 0)
    expect(Math.abs(run.elapsed_s / expected_s - 1)).toBeLessThanOrEqual(tolerance)
  })
})

describe('self-discharge of 1 % a year beside a steady load (closed form of dQ/dt = -I - λQ)', () => {
  const losing = (capacity_mAh: number): Cell => ({
    ...cellOf('ideal', capacity_mAh * COULOMBS_PER_mAh),
    selfDischarge_per_year: -Math.log(0.99),
  })
  it.each([
    [2000, 6.6472 / 24 / 1000, 299.639056],
    [225, 5e-6, 1828.202322],
  ])('%d mAh at %d A lives %d days', (capacity_mAh, current_A, expected_d) => {
    const run = at20(losing(capacity_mAh), [drawing(current_A, DAY_S)], 0)
    expect(Math.abs(run.elapsed_s / DAY_S / expected_d - 1)).toBeLessThanOrEqual(TOLERANCE.selfDischarge)
  })

  it('keeps 99 % of a resting cell after a year', () => {
    expect(shareKept(losing(225), 20, 365 * DAY_S)).toBeCloseTo(0.99, 12)
  })
})
