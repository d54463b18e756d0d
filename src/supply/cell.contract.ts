/** What every cell of the catalogue must do, whatever its chemistry: run for each of them in `cell.test.ts`. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { valueAt } from '../numeric/curve.ts'
import { loaded_V, openCircuit_V, resistance_Ohm } from './cell.ts'
import { afterCurrent, restedState } from './cell-state.ts'
import { discharge } from './discharge.ts'
import { selfDischargeRate_per_s, shareKept } from './self-discharge.ts'
import type { Cell } from './supply.ts'

const RECHARGEABLE = ['Li-ion', 'LiFePO4', 'NiMH', 'VRLA', 'supercapacitor']

const share = fc.double({ min: 0, max: 1, noNaN: true })
const weather_C = fc.double({ min: -40, max: 60, noNaN: true })
/** Current as a multiple of the capacity per hour: from months to a quarter of an hour. */
const rate_per_h = fc.double({ min: -3.5, max: 0.6, noNaN: true }).map((exponent) => 10 ** exponent)

/** The cell without what time alone does to it. */
const timeless = (cell: Cell): Cell => ({ ...cell, selfDischarge_per_year: 0, calendarFade_per_year: 0 })

/** A constant-current discharge of a new cell to its own cut-off. */
function steadily(cell: Cell, rate: number, temperature_C: number) {
  const load = { kind: 'current', current_A: (rate * cell.capacity_C) / 3600 } as const
  const pattern = [{ load, duration_s: 86400 }]
  return discharge({ cell, pattern, temperature_C, end_V: 0, fade: 0, longest_s: Infinity })
}

export function describeCell(cell: Cell): void {
  describe(`${cell.name} (${cell.chemistry})`, () => {
    it('has an open-circuit voltage that never falls as charge rises', () => {
      fc.assert(
        fc.property(share, share, weather_C, (a, b, temperature_C) => {
          const lower = openCircuit_V(cell, Math.min(a, b), temperature_C)
          expect(lower).toBeLessThanOrEqual(openCircuit_V(cell, Math.max(a, b), temperature_C))
        }),
      )
      if (cell.chemistry !== 'ideal')
        expect(openCircuit_V(cell, 0, 20)).toBeLessThan(openCircuit_V(cell, 1, 20))
    })

    it('rests no lower than its cut-off when empty, so that no forecast takes it below but for the length of a wake', () => {
      expect(openCircuit_V(cell, 0, 20)).toBeGreaterThanOrEqual(cell.cutOff_V)
    })

    it('has a positive resistance, greater in the cold, with age and when empty', () => {
      fc.assert(
        fc.property(share, weather_C, weather_C, share, (state, t1, t2, fade) => {
          const cold = resistance_Ohm(cell, state, Math.min(t1, t2), fade)
          const warm = resistance_Ohm(cell, state, Math.max(t1, t2), fade)
          expect(warm).toBeGreaterThan(0)
          expect(cold).toBeGreaterThanOrEqual(warm)
          expect(warm).toBeGreaterThanOrEqual(resistance_Ohm(cell, state, Math.max(t1, t2), 0))
          expect(resistance_Ohm(cell, 0, t1, fade)).toBeGreaterThanOrEqual(
            resistance_Ohm(cell, state, t1, fade),
          )
        }),
      )
    })

    it('stands lower under load than open, and higher while charged', () => {
      fc.assert(
        fc.property(share, weather_C, rate_per_h, (state, temperature_C, rate) => {
          const current_A = (rate * cell.capacity_C) / 3600
          const open = openCircuit_V(cell, state, temperature_C)
          expect(loaded_V(cell, state, temperature_C, 0, current_A)).toBeLessThan(open)
          expect(loaded_V(cell, state, temperature_C, 0, -current_A)).toBeGreaterThan(open)
        }),
      )
    })

    it('gives no more charge in the cold, self-discharge apart', () => {
      fc.assert(
        fc.property(weather_C, rate_per_h, (temperature_C, rate) => {
          const cold_C = steadily(timeless(cell), rate, Math.min(temperature_C, 20)).delivered_C
          const warm_C = steadily(timeless(cell), rate, 20).delivered_C
          expect(cold_C).toBeLessThanOrEqual(warm_C * (1 + 1e-6))
        }),
        { numRuns: 25 },
      )
      expect(valueAt(cell.capacityFactor, 20)).toBe(1)
      expect(Math.max(...cell.capacityFactor.y)).toBe(1)
      expect(Math.min(...cell.capacityFactor.y)).toBeGreaterThan(0)
    })

    it('gives no more charge at a higher current, self-discharge apart', () => {
      fc.assert(
        fc.property(rate_per_h, rate_per_h, weather_C, (a, b, temperature_C) => {
          const slow_C = steadily(timeless(cell), Math.min(a, b), temperature_C).delivered_C
          const fast_C = steadily(timeless(cell), Math.max(a, b), temperature_C).delivered_C
          expect(fast_C).toBeLessThanOrEqual(slow_C * (1 + 1e-6))
        }),
        { numRuns: 25 },
      )
    })

    it('is in the same state however a step is split', () => {
      const duration = fc.double({ min: 0, max: 1e6, noNaN: true })
      const hourly_A = cell.capacity_C / 3600
      const current = fc.double({ min: -1, max: 1, noNaN: true }).map((rate) => rate * hourly_A)
      fc.assert(
        fc.property(share, current, duration, duration, (charged, current_A, first_s, second_s) => {
          const start = restedState(cell, charged, 0)
          const whole = afterCurrent(cell, start, current_A, first_s + second_s)
          const half = afterCurrent(cell, start, current_A, first_s)
          const split = afterCurrent(cell, half, current_A, second_s)
          const moved_C = cell.capacity_C + Math.abs(current_A) * (first_s + second_s)
          expect(Math.abs(split.available_C - whole.available_C) / moved_C).toBeLessThan(1e-12)
          expect(Math.abs(split.charge_C - whole.charge_C) / moved_C).toBeLessThan(1e-12)
        }),
      )
    })

    it('discharges itself faster when warm, alike however the time is split', () => {
      fc.assert(
        fc.property(weather_C, weather_C, share, (t1, t2, split) => {
          const cold = selfDischargeRate_per_s(cell, Math.min(t1, t2))
          expect(cold).toBeLessThanOrEqual(selfDischargeRate_per_s(cell, Math.max(t1, t2)))
          const month_s = 30 * 86400
          const parts = shareKept(cell, t1, split * month_s) * shareKept(cell, t1, (1 - split) * month_s)
          expect(parts).toBeCloseTo(shareKept(cell, t1, month_s), 12)
        }),
      )
      expect(selfDischargeRate_per_s(cell, 20)).toBeCloseTo(cell.selfDischarge_per_year / 31_536_000, 15)
    })

    it('accounts for all of its charge and energy', () => {
      const integral_J = storedEnergy_J(cell)
      fc.assert(
        fc.property(weather_C, rate_per_h, (temperature_C, rate) => {
          const run = steadily(cell, rate, temperature_C)
          const sum_C = run.delivered_C + run.lost_C + run.left_C
          expect(Math.abs(sum_C - cell.capacity_C) / cell.capacity_C).toBeLessThan(1e-9)
          const warmer_J = run.delivered_C * Math.abs(cell.openCircuit_V_per_K * (temperature_C - 20))
          expect(run.delivered_J + run.heat_J).toBeLessThanOrEqual(integral_J * (1 + 1e-6) + warmer_J)
        }),
        { numRuns: 25 },
      )
    })

    it('gives all the energy under its open-circuit curve when nothing hurries it', () => {
      const run = steadily({ ...timeless(cell), cutOff_V: 0 }, 1e-5, 20)
      expect(Math.abs((run.delivered_J + run.heat_J) / storedEnergy_J(cell) - 1)).toBeLessThan(1e-3)
    })

    it('can be charged just where its chemistry allows', () => {
      expect(cell.charging !== null).toBe(RECHARGEABLE.includes(cell.chemistry))
      if (cell.charging === null) return
      const { low_C, high_C, full_V, coulombicEfficiency, rateLimit_per_h } = cell.charging
      expect(low_C).toBeLessThan(high_C)
      expect(full_V).toBeGreaterThanOrEqual(openCircuit_V(cell, 1, 20))
      expect(coulombicEfficiency).toBeGreaterThan(0)
      expect(coulombicEfficiency).toBeLessThanOrEqual(1)
      expect(rateLimit_per_h).toBeGreaterThan(0)
      if (cell.chemistry === 'Li-ion' || cell.chemistry === 'LiFePO4') expect(low_C).toBeGreaterThanOrEqual(0)
    })
  })
}

/** Charge times the area under the open-circuit curve at 20 °C: trapezia are exact on its straight lines. */
function storedEnergy_J(cell: Cell): number {
  const { x, y } = cell.openCircuit_V
  let area_V = 0
  for (let i = 1; i < x.length; i++) area_V += ((y[i] + y[i - 1]) / 2) * (x[i] - x[i - 1])
  return area_V * cell.capacity_C
}
