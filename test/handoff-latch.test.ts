/** The low-battery latch in C against the simulation's own step, in the cold. */
import { afterAll, describe, expect, it } from 'vitest'
import { cHeader } from '../src/handoff/c-header.ts'
import { valueAt } from '../src/numeric/curve.ts'
import { stream } from '../src/numeric/random.ts'
import { compilePlan } from '../src/outlook/compile.ts'
import { wakesOf } from '../src/outlook/ensemble.ts'
import { initialState } from '../src/outlook/state.ts'
import { advance } from '../src/outlook/step.ts'
import type { Outpost } from '../src/outpost/outpost.ts'
import { openCircuit_V, resistance_Ohm } from '../src/supply/cell.ts'
import { cellOf } from '../src/supply/cell-catalogue.ts'
import { packAsCell } from '../src/supply/cell-pack.ts'
import { missing } from './compile-c.ts'
import { exact, sunlit } from './designs.ts'
import { answerAt, driverOf, handedOver, packed, removeFolders, YEAR } from './handoff-driver.ts'

const noCompiler = missing('cc')
if (noCompiler !== null) console.warn(`skipped: ${noCompiler}`)
afterAll(removeFolders)

describe.skipIf(noCompiler !== null)('the latch that is handed over', () => {
  const oneLithium = { ...sunlit.supply, brownout: { at_V: 2.95, restart_V: 3.6 } }
  const batteries: { what: string; supply: Outpost<number>['supply'] }[] = [
    { what: 'a burst decides', supply: oneLithium },
    { what: 'the empty cell decides', supply: { ...oneLithium, brownout: { at_V: 2.0, restart_V: 3.5 } } },
    {
      what: 'a small cell with much resistance',
      supply: {
        ...oneLithium,
        pack: { ...oneLithium.pack, cell: cellOf('Li-ion', 400), capacity_C: 400 },
        brownout: { at_V: 2.8, restart_V: 3.7 },
      },
    },
  ]
  it.each(batteries)('stops and starts in the cold with the simulation: $what', ({ supply }) => {
    const design: Outpost<number> = { ...sunlit, supply }
    const { latch, ...handoff } = handedOver(exact(design))
    const walk = coldWalk(design, latch.temperature_C)
    const answers = driverOf(
      { latch, ...handoff },
      false,
    )(
      packed(
        walk.map(({ measured_V, wasDown }) => ({
          now_s: 0,
          battery_mV: Math.floor(1000 * measured_V),
          wasLow: wasDown ? 1 : 0,
        })),
      ),
    )
    // The simulation reads its tables between nodes: this close to a threshold either answer is right.
    const clear = walk.flatMap(({ measured_V, empty, down }, i) => {
      const gap_mV = [latch.low_mV, latch.restart_mV].map((mV) => Math.abs(1000 * measured_V - mV))
      return empty || Math.min(...gap_mV) > NEAR_mV ? [{ i, down, low: answerAt(answers, i).low === 1 }] : []
    })
    expect(clear.filter(({ down, low }) => down !== low)).toEqual([])
    expect(clear.length).toBeGreaterThan(0.9 * walk.length)
    const downs = clear.filter(({ down }) => down).length
    expect(downs).toBeGreaterThan(0.1 * walk.length)
    expect(downs).toBeLessThan(0.9 * walk.length)
  })

  it.each([2.0, 2.95, 3.3, 3.6])('works again from RESTART, not before: restart above %d V', (restart_V) => {
    const supply = { ...oneLithium, brownout: { at_V: 2.95, restart_V } }
    const handoff = handedOver(exact({ ...sunlit, supply }))
    const { restart_mV } = handoff.latch
    const header = cHeader(handoff, { prefix: 'outpost', bcd: false })
    expect(header).toContain(`#define OUTPOST_RESTART_MV UINT16_C(${restart_mV})`)
    const ask = driverOf(handoff, false)
    const low = (battery_mV: number) => answerAt(ask(packed([{ now_s: 0, battery_mV, wasLow: 1 }])), 0).low
    expect([restart_mV - 1, restart_mV].map(low)).toEqual([1, 0])
  })
})

const NEAR_mV = 2
const STEP_s = 3600
const STEPS = 20_000

/** The simulation's own step, from states of charge that wander up and down in one cold. */
function coldWalk(design: Outpost<number>, temperature_C: number) {
  const { supply } = design
  const cell = packAsCell(supply.pack)
  const plan = compilePlan(
    { ...design, place: { ...design.place, enclosureRise_K: 0 } },
    wakesOf(design.wake, design.place, { calendarYear: YEAR, stepsPerHour: 1 }),
    STEP_s,
  )
  const usable = valueAt(cell.capacityFactor, temperature_C)
  const random = stream(22, 0, 0)
  const rest_A = plan.byVoltage[0]
  const state = initialState(plan)
  let s = 0.5
  return Array.from({ length: STEPS }, () => {
    s = Math.min(Math.max(s + 0.2 * (random.uniform() - 0.5), -0.3), 0.999)
    // Steep at its end, a cell is low for a small part of its charge only: look there more often.
    const at = Math.max(s, 0) ** 3
    const head = 1 - (1 - Math.min(s ** 3, at)) * usable
    state.available_C = plan.available * plan.capacity_C * head
    state.charge_C = plan.capacity_C * head
    state.fade = 0
    const wasDown = state.down
    advance(plan, state, new Float64Array(1), Float64Array.of(temperature_C), 0)
    const measured_V =
      openCircuit_V(cell, at, temperature_C) - rest_A * resistance_Ohm(cell, at, temperature_C, 0)
    return { measured_V, empty: at === 0, wasDown, down: state.down }
  })
}
