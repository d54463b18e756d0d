import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Step } from '../wake/wake.ts'
import { expectedReports } from './expected-reports.ts'

const design = (...steps: readonly Step<number>[]): Outpost =>
  exact({ ...sunlit, wake: { ...sunlit.wake, steps } })
const inVain = (...steps: readonly Step<number>[]) =>
  expectedReports(design(...steps), 1, { calendarYear: 2027 }).inVain
const failing = (probability: number, times: number) => ({
  retries: { probability, times, backoff_s: 1, failedDuration_s: 2 },
})

describe('reports that are lost in vain', () => {
  it('are none where no try can fail', () => {
    expect(inVain(step())).toBe(0)
  })

  // The geometric law: every one of n tries fails with probability pⁿ.
  it.each([
    [0.3, 0, 0.3],
    [0.3, 1, 0.09],
    [0.5, 2, 0.125],
    [1, 3, 1],
  ])('are those of which each try fails: %d, %d more tries', (probability, times, expected) => {
    expect(inVain(step(failing(probability, times)))).toBeCloseTo(expected, 12)
  })

  it('are also those that a failed step before leaves undone', () => {
    const join = step({ name: 'join', reports: 0, ...failing(0.2, 0) })
    expect(inVain(join, step(failing(0.1, 0)))).toBeCloseTo(1 - 0.8 * 0.9, 12)
  })
})

describe('the spread of reports', () => {
  const spreadOf = (outpost: Outpost) => expectedReports(outpost, 1, { calendarYear: 2027 }).spread
  it('is nothing where nothing is uncertain', () => {
    expect(spreadOf(design(step()))).toBe(0)
  })
  it('follows the tolerance of the interval', () => {
    const outpost = design(step({ duration_s: 0.001 }))
    const rest_s = { kind: 'normal', value: 600, u: 60 } as const
    const cadence = { schedule: { kind: 'rest', rest_s } as const, events: null, thrift: [] }
    const spread = spreadOf({ ...outpost, wake: { ...outpost.wake, cadence } })
    expect(spread).toBeGreaterThan(0.05) // 10 %, estimated from 16 draws
    expect(spread).toBeLessThan(0.2)
  })
})
