/**
 * Sizing where paper and pencil suffice: light and load that never change. The closed forms are written here, apart from
 * the code under test.
 */
import { describe, expect, it } from 'vitest'
import { exact, sunlit } from '../../test/designs.ts'
import { brent } from '../numeric/root.ts'
import { compilePlan } from '../outlook/compile.ts'
import { wakesOf } from '../outlook/ensemble.ts'
import { resolve } from '../outpost/inputs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { best } from '../quantity/spread.ts'
import { cellOf } from '../supply/cell-catalogue.ts'
import { playWinters } from './play-winters.ts'
import { withCapacity } from './sizing-axes.ts'

const DAYS = 365
const LOAD_A = 10e-3
const ideal = cellOf('ideal', 3600)
const rechargeable = {
  ...ideal,
  charging: { low_C: -50, high_C: 90, full_V: 3.8, coulombicEfficiency: 0.9, rateLimit_per_h: 10 },
}

/** A load of 10 mA without wakes on an ideal cell that gives back nine tenths, and a converter that loses a fifth. */
const design: Outpost = exact({
  ...sunlit,
  wake: {
    ...sunlit.wake,
    steps: [],
    standing: [],
    rest_A: LOAD_A,
    cadence: { schedule: { kind: 'rest', rest_s: 1e9 }, events: null, thrift: [] },
  },
  supply: {
    ...sunlit.supply,
    pack: { ...sunlit.supply.pack, cell: rechargeable, capacity_C: 3600, initial: 1 },
    regulator: { kind: 'none' },
    brownout: { at_V: 1, restart_V: 1 },
    charger: { kind: 'maximum-power', efficiency: 0.8, limit_A: 100, quiescent_A: 0, full_V: 3.8 },
    panel: { ...sunlit.supply.panel!, rise_K: 0 },
  },
  place: { ...sunlit.place, soiling: 0, enclosureRise_K: 0 },
})

/** One year of steps of an hour: `lit` says when there is light of 1000 W/m² on the plane, at 25 °C. */
function survives(capacity_C: number, times: number, lit: (hour: number) => boolean): boolean {
  const pack = withCapacity(design.supply.pack, capacity_C)
  const drawn = resolve({ ...design, supply: { ...design.supply, pack } }, best)
  const rows = wakesOf(drawn.wake, drawn.place, { calendarYear: 2027, stepsPerHour: 1 })
  const plan = compilePlan(drawn, rows, 3600)
  const { charging } = plan
  if (charging === null) throw new Error('the plan does not charge')
  const light = Float64Array.from({ length: DAYS * 24 }, (_, hour) => (lit(hour) ? 1000 : 0))
  const air = new Float64Array(DAYS * 24).fill(25)
  const larger = { ...plan, charging: { ...charging, converter: charging.converter * times } }
  const weather = { light, air, perDay: 24, cutDay: 0, flashLife_days: Infinity, endsWhenDown: false }
  return playWinters(larger, weather).neverDown
}

const edge = (works: (x: number) => boolean, low: number, high: number): number =>
  brent((x) => (works(x) ? 1 : -1), low, high, 1e-6 * high)

describe('sizing under a sun that never changes', () => {
  it('finds the cell that carries the load through the dark, as load × time says', () => {
    // Lit by day, dark for 100 days on end in the middle of the year: Q = I · t.
    const dark = (hour: number) => hour >= 3000 && hour < 3000 + 100 * 24
    const found = edge((capacity_C) => survives(capacity_C, 10, (hour) => !dark(hour)), 1e4, 1e6)
    expect(Math.abs(found / (LOAD_A * 100 * 86_400) - 1)).toBeLessThan(2e-3)
  })

  it('finds the panel that gives in half a day what a day takes, as power says', () => {
    // At 1000 W/m² and 25 °C the panel gives its rated 5.5 V · 80 mA; the pack stands at 3.7 V.
    const charge_A = (5.5 * 0.08 * 0.8) / 3.7
    // Half of each day lit: the light half must give the load of both halves; 0.9 of the charge comes back.
    const needed = (LOAD_A * 24) / (12 * charge_A * 0.9)
    // A large cell that starts full may still run down over the year, so the year's loss must stay below what it holds.
    const capacity_C = LOAD_A * 86_400
    const found = edge((times) => survives(capacity_C, times, (hour) => hour % 24 < 12), 0.01, 1)
    // One day's charge of slack over 365 days: a smaller panel may lack 1 part in 365 of the load.
    expect(found / needed).toBeGreaterThan(1 - 1 / 365 - 5e-3)
    expect(found / needed).toBeLessThan(1 + 5e-3)
  })
})
