import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { envelope, step, sunlit } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { cellOf, findCell } from '../supply/cell-catalogue.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { compilePlan } from './compile.ts'
import { imbalance_C, initialState } from './state.ts'
import { advance } from './step.ts'

const planFor = (design: Outpost<number>, step_s = 3600) =>
  compilePlan(design, expectedWakes(design.wake, null, step_s), step_s)

const withPack = (
  design: Outpost<number>,
  pack: Partial<Outpost<number>['supply']['pack']>,
): Outpost<number> => ({
  ...design,
  supply: { ...design.supply, pack: { ...design.supply.pack, ...pack } },
})

/** Hours until the device is down, under constant light and air. */
function hoursAlive(design: Outpost<number>, air_C: number, step_s = 3600): number {
  const plan = planFor(design, step_s)
  const state = initialState(plan)
  const dark = new Float64Array(1)
  const air = new Float64Array(1).fill(air_C)
  let steps = 0
  while (!state.down && steps < 1e6) {
    advance(plan, state, dark, air, 0)
    steps++
  }
  return ((steps - 1) * step_s) / 3600
}

describe('the sum on the back of an envelope (common practice, no source)', () => {
  const awake = step({ duration_s: 10, current_A: 0.025 })
  it('500 mAh at 25 mA, always awake: 20 h', () => {
    const always = envelope({
      steps: [step({ duration_s: 60, current_A: 0.025 })],
      cadence: { schedule: { kind: 'rest', rest_s: 0 }, events: null, thrift: [] },
    })
    expect(hoursAlive(always, 20)).toBe(20)
  })
  it('10 s of 25 mA in each minute and 0.7 mA between: 4 days 9 h', () => {
    const minutely = envelope({
      steps: [awake],
      rest_A: 0.0007,
      cadence: { schedule: { kind: 'rate', period_s: 60 }, events: null, thrift: [] },
    })
    expect(Math.round(hoursAlive(minutely, 20, 600))).toBe(4 * 24 + 9)
  })
  it('10 s in each five minutes: 13.8 days', () => {
    const slower = envelope({
      steps: [awake],
      rest_A: 0.0007,
      cadence: { schedule: { kind: 'rate', period_s: 300 }, events: null, thrift: [] },
    })
    expect(hoursAlive(slower, 20) / 24).toBeCloseTo(13.8, 1)
  })
})

describe('the step function', () => {
  it('keeps its accounts to 1e-9 under any light and air', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.double({ min: 0, max: 1200, noNaN: true }),
            fc.double({ min: -35, max: 45, noNaN: true }),
          ),
          {
            minLength: 50,
            maxLength: 400,
          },
        ),
        fc.constantFrom('Li-ion', 'LiFePO4', 'VRLA', 'NiMH', 'supercapacitor'),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (hours, chemistry, initial) => {
          const cell = chemistry === 'NiMH' ? findCell('HR6') : cellOf(chemistry as 'Li-ion', 3600)
          if (cell === null) throw new Error('HR6 is missing')
          const plan = planFor(withPack(sunlit, { cell, capacity_C: cell.capacity_C, initial }))
          const state = initialState(plan)
          advance(
            plan,
            state,
            Float64Array.from(hours, ([light]) => light),
            Float64Array.from(hours, ([, air]) => air),
            0,
          )
          const moved = plan.initialCharge_C + state.in_C + state.out_C
          expect(Math.abs(imbalance_C(plan, state)) / moved).toBeLessThan(1e-9)
          expect(state.charge_C).toBeGreaterThanOrEqual(-1e-9)
          expect(state.charge_C).toBeLessThanOrEqual(plan.capacity_C * (1 + 1e-9))
          for (const value of Object.values(state)) if (typeof value === 'number') expect(value).not.toBeNaN()
        },
      ),
      { numRuns: 100 },
    )
  })

  it('does the same in one call as in one for every step', () => {
    const spell = fc.tuple(
      fc.double({ min: 0, max: 400, noNaN: true }),
      fc.double({ min: -30, max: 30, noNaN: true }),
      fc.double({ min: 0, max: 12, noNaN: true }),
    )
    fc.assert(
      fc.property(
        fc.array(spell, { minLength: 2, maxLength: 12 }),
        fc.constantFrom('Li-ion', 'LiFePO4', 'VRLA'),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        (days, chemistry, initial) => {
          const plan = planFor(withPack(sunlit, { cell: cellOf(chemistry as 'Li-ion', 3600), initial }))
          const light = Float64Array.from({ length: 24 * days.length }, (_, h) =>
            Math.max(0, days[Math.floor(h / 24)][0] * Math.sin((Math.PI * (h % 24)) / 12)),
          )
          const air = Float64Array.from(light, (_, h) => {
            const [, mean_C, swing_K] = days[Math.floor(h / 24)]
            return mean_C + swing_K * Math.cos((Math.PI * h) / 12)
          })
          const whole = initialState(plan)
          advance(plan, whole, light, air, 0)
          const parts = initialState(plan)
          for (let h = 0; h < light.length; h++)
            advance(plan, parts, light.subarray(h, h + 1), air.subarray(h, h + 1), h)
          expect({ ...parts, wentDownAt: 0 }).toEqual({ ...whole, wentDownAt: 0 })
        },
      ),
      { numRuns: 200 },
    )
  })

  it('gives nearly the same in ten-minute steps', () => {
    const run = (step_s: number) => {
      const plan = planFor(sunlit, step_s)
      const state = initialState(plan)
      const n = (30 * 86_400) / step_s
      const hour = (i: number) => Math.floor((i * step_s) / 3600) % 24
      const light = Float64Array.from({ length: n }, (_, i) => (hour(i) > 9 && hour(i) < 14 ? 150 : 0))
      advance(plan, state, light, new Float64Array(n).fill(4), 0)
      return state
    }
    expect(run(600).charge_C / run(3600).charge_C).toBeCloseTo(1, 3)
  })

  it('charges no lithium cell below 0 °C, and none above its window', () => {
    const charged = (air_C: number) => {
      const plan = planFor(withPack(sunlit, { initial: 0.5 }))
      const state = initialState(plan)
      advance(plan, state, new Float64Array(10).fill(500), new Float64Array(10).fill(air_C), 0)
      return state.in_C
    }
    expect(charged(-8)).toBe(0) // 500 W/m² warm the enclosure by 5 K
    expect(charged(-4)).toBeGreaterThan(0)
    expect(charged(50)).toBe(0)
  })

  it('tapers and stops at full, and never fills past it', () => {
    const plan = planFor(withPack(sunlit, { initial: 0.97 }))
    const state = initialState(plan)
    for (let h = 0; h < 200; h++) advance(plan, state, new Float64Array([900]), new Float64Array([20]), 0)
    expect(state.charge_C / plan.capacity_C).toBeGreaterThan(0.98)
    expect(state.charge_C).toBeLessThanOrEqual(plan.capacity_C)
  })

  it('goes down when empty, counts what it misses, and comes back only above the restart voltage', () => {
    const plan = planFor(withPack(sunlit, { initial: 0.02 }))
    const state = initialState(plan)
    const night = new Float64Array(24)
    const cold = new Float64Array(24).fill(5)
    for (let day = 0; day < 12; day++) advance(plan, state, night, cold, 0)
    expect(state.down).toBe(true)
    expect(state.deaths).toBe(1)
    expect(state.missedWakes).toBeGreaterThan(100)
    const day = new Float64Array(24).fill(700)
    for (let d = 0; d < 3; d++) advance(plan, state, day, cold, 0)
    expect(state.down).toBe(false)
  })
})
