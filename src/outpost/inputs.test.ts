import { describe, expect, test } from 'vitest'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import { resolve, uncertainInputs } from './inputs.ts'
import type { Outpost } from './outpost.ts'

const duration: Uncertain = { kind: 'skewed', typical: 4, p5: 2, p95: 9 }
const rest: Uncertain = { kind: 'below', limit: 1e-5 }
const drop: Uncertain = { kind: 'uniform', low: 0.2, high: 0.4 }
const efficiency = { x: [0.001, 0.1], y: [0.6, 0.9] }
const clearness = new Float64Array([0.3, 0.4])

const outpost = {
  title: 'uniform',
  wake: {
    steps: [
      { name: 'sense', duration_s: exactly(1), chance: exactly(1), every: 1, retries: null },
      { name: 'send', duration_s: duration, chance: exactly(0.5), every: 6, retries: null },
    ],
    rest_A: rest,
  },
  supply: { regulator: { kind: 'buck', dropOut_V: drop, efficiency } },
  place: { climate: { clearness } },
} as unknown as Outpost

describe('uncertainInputs', () => {
  test('lists what is not exact, with its path, in the order of the fields', () => {
    expect(uncertainInputs(outpost)).toEqual([
      { path: 'wake.steps[1].duration_s', value: duration },
      { path: 'wake.rest_A', value: rest },
      { path: 'supply.regulator.dropOut_V', value: drop },
    ])
  })
})

describe('resolve', () => {
  const low = (u: Uncertain) =>
    u.kind === 'exact' ? u.value : u.kind === 'uniform' ? u.low : u.kind === 'skewed' ? u.p5 : 0

  test('puts the picked number in place of every uncertain one', () => {
    const drawn = resolve(outpost, low)
    expect(drawn.wake.steps.map((step) => step.duration_s)).toEqual([1, 2])
    expect(drawn.wake.rest_A).toBe(0)
    expect(drawn.supply.regulator).toMatchObject({ kind: 'buck', dropOut_V: 0.2 })
  })

  test('asks with the same paths that uncertainInputs gives', () => {
    const asked: string[] = []
    resolve(outpost, (u, path) => {
      if (u.kind !== 'exact') asked.push(path)
      return 0
    })
    expect(asked).toEqual(uncertainInputs(outpost).map(({ path }) => path))
  })

  test('shares curves and typed arrays, and leaves strings, nulls and counts alone', () => {
    const drawn = resolve(outpost, low)
    expect((drawn.supply.regulator as { efficiency: unknown }).efficiency).toBe(efficiency)
    expect(drawn.place.climate.clearness).toBe(clearness)
    expect(drawn.title).toBe('uniform')
    expect(drawn.wake.steps[1].every).toBe(6)
    expect(drawn.wake.steps[1].retries).toBeNull()
  })
})
