import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import { drawn, probabilitiesOf } from './draw.ts'

const normal = (value: number, u: number): Uncertain => ({ kind: 'normal', value, u })

function design(names: readonly string[]): Outpost {
  const base = exact({ ...sunlit, wake: { ...sunlit.wake, steps: names.map((name) => step({ name })) } })
  const steps = base.wake.steps.map((each) => ({ ...each, current_A: normal(0.08, 0.008) }))
  return { ...base, wake: { ...base.wake, steps, rest_A: normal(20e-6, 2e-6) } }
}

describe('a drawn design', () => {
  it('draws a number alike in two designs that share it, whatever else they hold', () => {
    const short = drawn(design(['sense', 'send']), probabilitiesOf(3, 7))
    const long = drawn(design(['join', 'sense', 'send']), probabilitiesOf(3, 7))
    expect(long.wake.steps.slice(1).map((s) => s.current_A)).toEqual(short.wake.steps.map((s) => s.current_A))
    expect(long.wake.rest_A).toBe(short.wake.rest_A)
    expect(long.supply.pack.capacity_C).toBe(short.supply.pack.capacity_C)
  })

  it('draws two steps apart from each other, also of one name', () => {
    const currents = drawn(design(['a', 'b', 'a']), probabilitiesOf(3, 7)).wake.steps.map((s) => s.current_A)
    expect(new Set(currents).size).toBe(3)
  })

  it('has the mean and the spread of the file over many runs', () => {
    const of = design(['send'])
    const drawnOnes = Array.from({ length: 2000 }, (_, k) => drawn(of, probabilitiesOf(1, k)).wake.rest_A)
    const mean = drawnOnes.reduce((a, b) => a + b, 0) / drawnOnes.length
    const variance = drawnOnes.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (drawnOnes.length - 1)
    // Four standard errors: u/√n of the mean, u/√(2n) of the deviation.
    expect(Math.abs(mean - 20e-6)).toBeLessThan((4 * 2e-6) / Math.sqrt(2000))
    expect(Math.abs(Math.sqrt(variance) - 2e-6)).toBeLessThan((4 * 2e-6) / Math.sqrt(4000))
  })
})
