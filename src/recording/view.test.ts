import { describe, expect, test } from 'vitest'
import { LEVELS } from './layout.ts'
import { recordingOf } from './memory.ts'
import { BLOCK_SAMPLES, type Recording } from './recording.ts'
import { spanStatistics } from './span.ts'
import { viewAt } from './view.ts'

const SAMPLES = 12 * BLOCK_SAMPLES + 777
const RATE_Hz = 50_000

function withSpike(at: number, spike: number, uneven: boolean): Recording {
  const current_A = new Float32Array(SAMPLES).fill(0.001)
  current_A[at] = spike
  const jitter = (i: number) => (uneven ? 0.3 * Math.sin(i) : 0)
  const time_s = Float64Array.from(current_A, (_, i) => (i + jitter(i) - jitter(0)) / RATE_Hz)
  return recordingOf({ count: SAMPLES, time_s, current_A, voltage_V: null })
}

describe.each([false, true])('a spike of one sample (uneven: %s)', (uneven) => {
  const places = [0, 63, 64, 65536, 300_001, SAMPLES - 1]

  test('is seen at every zoom, in the bucket of its time', () => {
    const used = new Set<number>()
    for (const place of places) {
      const spike = place % 2 ? 0.5 : -0.5
      const recording = withSpike(place, spike, uneven)
      const time = place / RATE_Hz
      for (let width = SAMPLES; width >= 64; width = Math.floor(width / 4)) {
        const from = Math.max(0, Math.min(place - Math.floor(width / 2), SAMPLES - width))
        const span = { from_s: from / RATE_Hz, to_s: (from + width) / RATE_Hz }
        for (const buckets of [1, 10, 300, 2000]) {
          used.add(LEVELS.filter((level) => level.size * 4 <= width / buckets).length)
          const view = viewAt(recording, buckets, span)
          const extremes = spike > 0 ? view.max_A : view.min_A
          const found = extremes.indexOf(spike)
          expect(found, `sample ${place}, ${width} samples in ${buckets} buckets`).toBeGreaterThanOrEqual(0)
          const off = Math.abs(time - view.from_s - (found + 0.5) * view.bucket_s)
          expect(off).toBeLessThanOrEqual(0.76 * view.bucket_s + 1 / RATE_Hz)
        }
      }
    }
    // Samples themselves and all three levels of nodes were looked at.
    expect([...used].sort()).toEqual([0, 1, 2, 3])
  })
})

test('bucket means add up to the charge, and missing time shows', () => {
  const current_A = Float32Array.from({ length: SAMPLES }, (_, i) => 0.001 + 1e-6 * (i % 1000))
  current_A.fill(Number.NaN, 400_000, 500_000)
  const recording = recordingOf(
    { count: SAMPLES, time_s: null, current_A, voltage_V: null },
    { interval_s: 1e-4 },
  )
  for (const buckets of [7, 500, 60_000]) {
    const { mean_A, covered, bucket_s } = viewAt(recording, buckets)
    const charge = mean_A.reduce(
      (sum, mean, b) => sum + (covered[b] > 0 ? mean * covered[b] * bucket_s : 0),
      0,
    )
    // A node or sample belongs whole to the bucket of its start; one too many counts as fully covered and no more.
    expect(Math.abs(charge / spanStatistics(recording).charge_C - 1)).toBeLessThan(0.02)
    const middle = Math.floor((45 / recording.header.duration_s) * buckets)
    if (buckets > 7) expect(covered[middle]).toBe(0)
    if (buckets > 7) expect(mean_A[middle]).toBeNaN()
  }
})

test('a view without buckets is refused', () => {
  const recording = recordingOf(
    { count: 1, time_s: null, current_A: Float32Array.of(1), voltage_V: null },
    { interval_s: 1 },
  )
  expect(() => viewAt(recording, 0)).toThrow(/1 to 100000 buckets/)
})
