import fc from 'fast-check'
import { expect, test } from 'vitest'
import { spanHistogram } from './distribution.ts'
import { coarseHistogram } from './histogram-coarse.ts'
import { recordingOf } from './memory.ts'

const histogramOf = (values: readonly number[]) =>
  spanHistogram(
    recordingOf(
      { count: values.length, time_s: null, current_A: Float32Array.from(values), voltage_V: null },
      { interval_s: 1 },
    ),
  )

test('no time is lost, and each value lies in its bin or, near an edge, in the next', () => {
  const value = fc.double({ min: 1e-8, max: 10, noNaN: true })
  fc.assert(
    fc.property(
      fc.array(value, { minLength: 1, maxLength: 50 }),
      fc.integer({ min: 1, max: 20 }),
      (values, per) => {
        const { edges_A, duration_s, charge_C, notAbove_s } = coarseHistogram(histogramOf(values), per)
        expect(notAbove_s).toBe(0)
        expect(duration_s.reduce((a, b) => a + b, 0)).toBeCloseTo(values.length, 9)
        const sum_C = values.reduce((a, b) => a + b, 0)
        expect(Math.abs(charge_C.reduce((a, b) => a + b, 0) / sum_C - 1)).toBeLessThan(0.009)
        for (const x of values) {
          const near = edges_A.findIndex((edge, k) => edge <= 1.017 * x && x <= 1.017 * edges_A[k + 1])
          expect(duration_s[near] + (duration_s[near + 1] ?? 0)).toBeGreaterThan(0)
        }
      },
    ),
    { seed: 4 },
  )
})

test('edges are whole steps of a decade; zero and what flows back stand apart', () => {
  const { edges_A, duration_s, notAbove_s } = coarseHistogram(histogramOf([0, -1e-3, 0.0015, 0.0015, 0.5]), 1)
  expect(edges_A.map((edge) => Math.round(Math.log10(edge)))).toEqual([-3, -2, -1, 0])
  expect(duration_s).toEqual([2, 0, 1])
  expect(notAbove_s).toBe(2)
  expect(coarseHistogram(histogramOf([0]), 12)).toEqual({
    edges_A: [],
    duration_s: [],
    charge_C: [],
    notAbove_s: 1,
  })
})
