/** Oracle: Ohm's law at a constant 3.3 V, whatever part of the column is filled. */
import { expect, test } from 'vitest'
import { recordingOf } from './memory.ts'
import { BLOCK_SAMPLES } from './recording.ts'
import { spanStatistics, wholeSpan } from './span.ts'
import { supplyVoltage } from './supply-voltage.ts'

const SAMPLES = BLOCK_SAMPLES + 1000

/** Volts in the samples that `has` says. */
function supplyOf(has: (sample: number) => boolean, from_s?: number) {
  const recording = recordingOf(
    {
      count: SAMPLES,
      time_s: null,
      current_A: Float32Array.from({ length: SAMPLES }, (_, k) => (k % 100 < 10 ? 0.02 : 1e-5)),
      voltage_V: Float32Array.from({ length: SAMPLES }, (_, k) => (has(k) ? 3.3 : Number.NaN)),
    },
    { interval_s: 0.001 },
  )
  const span = { ...wholeSpan(recording), ...(from_s === undefined ? {} : { from_s }) }
  return supplyVoltage(recording, span, spanStatistics(recording, span))
}

test.each<[string, (sample: number) => boolean, number?]>([
  ['in every sample', () => true],
  ['in every fourth', (k) => k % 4 === 0],
  ['while it sleeps', (k) => k % 100 >= 10],
  ['in every third of a part that cuts samples', (k) => k % 3 === 0, 12.3456],
])('volts %s', (_, has, from_s) => {
  expect(supplyOf(has, from_s)).toBeCloseTo(3.3, 5)
})

test('without volts beside any current there is no supply', () => {
  expect(supplyOf(() => false)).toBeNull()
})
