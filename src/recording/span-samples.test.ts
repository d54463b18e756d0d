import fc from 'fast-check'
import { expect, test } from 'vitest'
import { recordingOf } from './memory.ts'
import { spanStatistics } from './span.ts'
import { spanSamples } from './span-samples.ts'

const COUNT = 70_000
const current_A = Float32Array.from({ length: COUNT }, (_, i) => (i % 7) * 1e-3)
const even = recordingOf({ count: COUNT, time_s: null, current_A, voltage_V: null }, { interval_s: 1e-3 })
/** Steps of 1 ms and of 2 ms by turns, and a gap of 5 s. */
const time_s = Float64Array.from(
  { length: COUNT },
  (_, i) => 1.5e-3 * i + 0.5e-3 * (i % 2) + (i > 40_000 ? 5 : 0),
)
const uneven = recordingOf({ count: COUNT, time_s, current_A, voltage_V: null })

test.each([
  ['even', even],
  ['uneven', uneven],
])(
  'current times hold of the samples of a span, cut to it, is the charge of its statistics (%s)',
  (_, recording) => {
    const { duration_s } = recording.header
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: duration_s - 1, noNaN: true }),
        fc.double({ min: 1e-4, max: 0.9, noNaN: true }),
        (from_s, length_s) => {
          const span = { from_s, to_s: from_s + length_s }
          const samples = spanSamples(recording, span, 2000)!
          let charge_C = 0
          samples.current_A.forEach((x, k) => {
            const inside = Math.min(samples.to_s[k], span.to_s) - Math.max(samples.from_s[k], span.from_s)
            charge_C += x * inside
          })
          expect(Math.abs(charge_C - spanStatistics(recording, span).charge_C)).toBeLessThan(1e-9)
        },
      ),
      { numRuns: 100, seed: 2 },
    )
  },
)

test('more samples than wanted are none, and so is what lies outside', () => {
  expect(spanSamples(even, { from_s: 1, to_s: 2 }, 999)).toBeNull()
  expect(spanSamples(even, { from_s: 1, to_s: 2 }, 1002)!.current_A.length).toBeGreaterThanOrEqual(1000)
  expect(spanSamples(even, { from_s: -5, to_s: -1 }, 9)!.current_A.length).toBe(0)
  expect(spanSamples(even, { from_s: 70.5, to_s: 80 }, 9)!.current_A.length).toBe(0)
})
