import { describe, expect, it } from 'vitest'
import { sunlit } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Regulator } from '../supply/supply.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { compilePlan } from './compile.ts'
import { downCurrent_A } from './load.ts'
import { initialState } from './state.ts'
import { advance } from './step.ts'

const DIVIDER_A = 4e-6
const RAIL_A = 30e-6

const behind = (regulator: Regulator<number>, rail_A = RAIL_A): Outpost<number> => ({
  ...sunlit,
  wake: {
    ...sunlit.wake,
    standing: [
      { name: 'divider', current_A: DIVIDER_A, from: 'cell' },
      { name: 'pull-up', current_A: rail_A, from: 'rail' },
    ],
  },
  supply: { ...sunlit.supply, regulator },
})

const converter = (kind: 'buck' | 'boost', output_V: number, minimum_V: number): Regulator<number> => ({
  kind,
  output_V,
  dropOut_V: 0.1,
  minimum_V,
  quiescent_A: 5e-6,
  efficiency: { x: [1e-6, 1], y: [0.8, 0.8] },
})

describe('what a browned-out device still takes', () => {
  // By hand: divider + idle current + what the converter takes for the pull-up, in µA.
  it.each<readonly [what: string, regulator: Regulator<number>, empty_V: number, down_uA: number]>([
    ['no regulator', { kind: 'none' }, 3, 4 + 30],
    ['linear', { kind: 'linear', output_V: 3, dropOut_V: 0.1, quiescent_A: 5e-6 }, 3, 4 + 5 + 30],
    ['buck from twelve volts', converter('buck', 3, 0), 12, 4 + 5 + (30 * 3) / (0.8 * 12)],
    ['buck that passes its input through', converter('buck', 3, 0), 2, 4 + 5 + 30],
    ['boost at the pack', converter('boost', 5, 0.9), 2.5, 4 + 5 + (30 * 5) / (0.8 * 2.5)],
    ['boost at its lowest input', converter('boost', 5, 3), 2.5, 4 + 5 + (30 * 5) / (0.8 * 3)],
  ])('%s', (_, regulator, empty_V, down_uA) => {
    const { wake, supply } = behind(regulator)
    expect(downCurrent_A(wake, supply, empty_V) * 1e6).toBeCloseTo(down_uA, 9)
  })

  it('is the same whether 100 µA are called idle current or standing drain, and so are the hours down', () => {
    const linear = (quiescent_A: number): Regulator<number> => ({
      kind: 'linear',
      output_V: 3,
      dropOut_V: 0.1,
      quiescent_A,
    })
    const hoursDown = (design: Outpost<number>) => {
      const small = { ...design.supply.pack, capacity_C: 360, initial: 0.3 }
      const put = { ...design, supply: { ...design.supply, pack: small } }
      const plan = compilePlan(put, expectedWakes(put.wake, null, 3600), 3600)
      const state = initialState(plan)
      const light = Float64Array.from({ length: 24 * 60 }, (_, h) => (h > 24 * 30 && h % 24 === 12 ? 40 : 0))
      advance(plan, state, light, new Float64Array(light.length).fill(10), 0)
      return state.downSteps
    }
    const asIdle = hoursDown(behind(linear(100e-6), 0))
    expect(asIdle).toBe(hoursDown(behind(linear(0), 100e-6)))
    expect(asIdle).toBeGreaterThan(hoursDown(behind(linear(0), 0)))
  })
})
