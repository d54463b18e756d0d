import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { stream } from '../numeric/random.ts'
import { compensatedSum } from '../numeric/sum.ts'
import { readBlock } from './access.ts'
import { spanHistogram, spanQuantiles } from './distribution.ts'
import { blockCount } from './layout.ts'
import { recordingOf } from './memory.ts'
import { BLOCK_SAMPLES, type Recording } from './recording.ts'
import { spanStatistics } from './span.ts'

const even = (samples: ArrayLike<number>, interval_s: number, voltage?: ArrayLike<number>): Recording =>
  recordingOf(
    {
      count: samples.length,
      time_s: null,
      current_A: Float32Array.from(samples),
      voltage_V: voltage ? Float32Array.from(voltage) : null,
    },
    { interval_s },
  )

/** A duty-cycled device with noise, several blocks long, some samples missing. */
function noisy(samples: number, seed: number): Float32Array {
  const random = stream(seed, 0, 0)
  return Float32Array.from({ length: samples }, (_, i) => {
    if (random.uniform() < 0.001) return Number.NaN
    return (i % 3000 < 100 ? 0.08 : 7e-4) + 2e-6 * random.normal()
  })
}

const LONG = 4 * BLOCK_SAMPLES + 1234
const longSamples = noisy(LONG, 7)
const long = even(longSamples, 1 / 4096)

describe('charge on constructed signals', () => {
  test('a square wave of binary fractions is exact', () => {
    const square = Float64Array.from({ length: 200_000 }, (_, i) => (i % 16 < 4 ? 0.5 : 0.125))
    const statistics = spanStatistics(even(square, 2 ** -10))
    expect(statistics.charge_C).toBe(50_000 * (0.5 + 3 * 0.125) * 2 ** -10)
    expect(statistics.rms_A).toBe(Math.sqrt((0.25 + 3 * 0.015625) / 4))
    expect(statistics.crest).toBe(0.5 / Math.sqrt((0.25 + 3 * 0.015625) / 4))
  })

  test('a small current between two large ones that cancel is kept', () => {
    expect(spanStatistics(even([2 ** 60, 3, -(2 ** 60)], 1)).charge_C).toBe(3)
  })

  test('a span cuts samples at its ends', () => {
    const ramp = even([1, 2, 3, 4], 1)
    expect(spanStatistics(ramp, { from_s: 0.5, to_s: 2.25 }).charge_C).toBe(0.5 + 2 + 0.75)
    expect(spanStatistics(ramp, { from_s: 1.25, to_s: 1.75 })).toMatchObject({
      charge_C: 1,
      min_A: 2,
      max_A: 2,
    })
  })

  test('energy comes from the voltage column, or from a voltage given', () => {
    expect(spanStatistics(even([1, 2], 1, [3, 4])).energy_J).toBe(11)
    expect(spanStatistics(even([1, 2], 1), undefined, 3).energy_J).toBe(9)
    expect(spanStatistics(even([1, 2], 1)).energy_J).toBeNull()
    expect(spanStatistics(even([1, 2], 1, [3, 4]), undefined, 3).energy_J).toBe(9)
    expect(spanStatistics(even([1, Number.NaN], 1, [Number.NaN, 3])).energy_J).toBeNull()
    expect(spanStatistics(even([1, 2], 1, [3, Number.NaN]))).toMatchObject({
      energy_J: 3,
      energyCovered_s: 1,
    })
  })

  test('a missing sample adds no charge and no time', () => {
    expect(spanStatistics(even([1, Number.NaN, Number.POSITIVE_INFINITY, 3], 2))).toMatchObject({
      charge_C: 8,
      covered_s: 4,
      missing_s: 4,
      mean_A: 2,
    })
  })

  test('nothing known has no mean', () => {
    expect(spanStatistics(even([Number.NaN], 1))).toMatchObject({ mean_A: null, rms_A: null, crest: null })
  })

  test('a sine has a crest factor of √2 and its handbook RMS', () => {
    const sine = Float64Array.from({ length: 100_000 }, (_, i) => Math.sin((2 * Math.PI * i) / 1000))
    const { rms_A, crest, mean_A } = spanStatistics(even(sine, 1e-4))
    expect(rms_A).toBeCloseTo(Math.SQRT1_2, 7)
    expect(crest).toBeCloseTo(Math.SQRT2, 7)
    expect(mean_A).toBeCloseTo(0, 9)
  })

  test('a span outside the recording is refused with its range', () => {
    expect(() => spanStatistics(even([1], 1), { from_s: 2, to_s: 3 })).toThrow(/2 s to 3 s holds nothing/)
  })
})

describe('any span', () => {
  const span = fc.tuple(fc.integer({ min: 0, max: LONG - 1 }), fc.integer({ min: 1, max: LONG }))

  test('prefix sums equal the direct compensated sum to 1e-12', () => {
    fc.assert(
      fc.property(span, ([a, length]) => {
        const b = Math.min(a + length, LONG)
        const known = longSamples.subarray(a, b).filter(Number.isFinite)
        fc.pre(known.length > 0)
        const statistics = spanStatistics(long, { from_s: a / 4096, to_s: b / 4096 })
        const direct = compensatedSum(known) / 4096
        expect(Math.abs(statistics.charge_C - direct)).toBeLessThanOrEqual(1e-12 * direct)
        const square = compensatedSum(Float64Array.from(known, (x) => x * x)) / 4096
        const rms = Math.sqrt(square / (known.length / 4096))
        expect(Math.abs(statistics.rms_A! - rms)).toBeLessThanOrEqual(1e-12 * rms)
        expect(statistics.covered_s).toBe(known.length / 4096)
        expect(statistics.min_A).toBe(known.reduce((x, y) => Math.min(x, y)))
        expect(statistics.max_A).toBe(known.reduce((x, y) => Math.max(x, y)))
      }),
      { numRuns: 60 },
    )
  })

  test('a span cut in two has the charge of the whole', () => {
    const end = long.header.duration_s
    const share = fc.double({ min: 0.001, max: 0.999, noNaN: true })
    fc.assert(
      fc.property(share, (p) => {
        const whole = spanStatistics(long).charge_C
        const parts =
          spanStatistics(long, { from_s: 0, to_s: p * end }).charge_C +
          spanStatistics(long, { from_s: p * end, to_s: end }).charge_C
        expect(Math.abs(parts - whole)).toBeLessThanOrEqual(1e-12 * whole)
      }),
      { numRuns: 60 },
    )
  })

  test('quantiles of a long span lie within a bin of the sorted samples', () => {
    const shares = [0, 0.01, 0.25, 0.5, 0.9, 0.97, 0.999, 1]
    const sorted = longSamples.filter(Number.isFinite).sort()
    const { values_A, exact } = spanQuantiles(long, shares)
    expect(exact).toBe(false)
    values_A.forEach((value, k) => {
      const direct = sorted[Math.round(shares[k] * (sorted.length - 1))]
      expect(Math.abs(value! / direct - 1)).toBeLessThan(0.016)
    })
  })

  test('quantiles of a short span are those of its samples (R-7)', () => {
    const short = even([4, 1, 3, 2], 1)
    expect(spanQuantiles(short, [0, 0.5, 1])).toEqual({ values_A: [1, 2.5, 4], exact: true })
  })

  test('a histogram accounts for all covered time, whatever the span', () => {
    for (const [from, to] of [
      [0, LONG],
      [100, 200],
      [5000, 3 * BLOCK_SAMPLES],
    ]) {
      const part = { from_s: from / 4096, to_s: to / 4096 }
      const total = compensatedSum(spanHistogram(long, part).map((bar) => bar.duration_s))
      expect(total).toBeCloseTo(spanStatistics(long, part).covered_s, 9)
    }
  })

  test('a histogram keeps signs and zero apart', () => {
    const bars = spanHistogram(even([-0.001, 0, 1e-12, 0.001, 5], 1))
    expect(bars.map((bar) => [Math.sign(bar.low_A), Math.sign(bar.high_A), bar.duration_s])).toEqual([
      [-1, -1, 1],
      [-1, 1, 2],
      [1, 1, 1],
      [1, 1, 1],
    ])
    for (const [bar, value] of [
      [bars[2], 0.001],
      [bars[3], 5],
    ] as const) {
      expect(bar.low_A).toBeLessThanOrEqual(Math.fround(value))
      expect(bar.high_A).toBeGreaterThan(value)
      expect(bar.high_A / bar.low_A).toBeLessThan(1.0157)
    }
  })
})

test('blocks give back the samples that went in', () => {
  const all = Array.from({ length: blockCount(long) }, (_, b) => [...readBlock(long, b).current_A]).flat()
  expect(Float32Array.from(all)).toEqual(longSamples)
})
