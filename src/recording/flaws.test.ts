import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { stream } from '../numeric/random.ts'
import { timeOfSample } from './access.ts'
import { recordingOf } from './memory.ts'
import { BLOCK_SAMPLES, FLAWS_KEPT, type Recording } from './recording.ts'
import { spanStatistics } from './span.ts'

function timed(
  times: ArrayLike<number>,
  current: ArrayLike<number> | null = null,
  resolution_s = 0,
): Recording {
  const current_A = current ? Float32Array.from(current) : new Float32Array(times.length).fill(1)
  return recordingOf(
    { count: times.length, time_s: Float64Array.from(times), current_A, voltage_V: null },
    { timeResolution_s: resolution_s },
  )
}

const steps = (count: number, step = 0.01) => Array.from({ length: count }, (_, i) => i * step)

describe('time', () => {
  test.each([100, BLOCK_SAMPLES, BLOCK_SAMPLES + 1, 2 * BLOCK_SAMPLES + 5])(
    '%i even samples are even',
    (count) => {
      const { header } = timed(steps(count, 0.001))
      expect(header).toMatchObject({ even: true, flaws: [] })
      expect(header.interval_s).toBeCloseTo(0.001, 15)
      expect(header.covered_s / (count * 0.001)).toBeCloseTo(1, 12)
    },
  )

  test('times rounded to their last digit are still even', () => {
    const rounded = Array.from({ length: 5000 }, (_, i) => Math.round((i / 3000) * 1e6) / 1e6)
    expect(timed(rounded, null, 1e-6).header.even).toBe(true)
    expect(timed(rounded, null, 1e-6).header.interval_s).toBeCloseTo(1 / 3000, 9)
  })

  test('uneven times keep each hold', () => {
    const { header } = timed([0, 1, 3, 4.5, 5], [1, 2, 4, 8, 16])
    expect(header.even).toBe(false)
    expect(spanStatistics(timed([0, 1, 3, 4.5, 5], [1, 2, 4, 8, 16]), { from_s: 0, to_s: 5 }).charge_C).toBe(
      1 + 4 + 6 + 4,
    )
  })

  test.each([500, BLOCK_SAMPLES - 1, BLOCK_SAMPLES, BLOCK_SAMPLES + 3])(
    'a gap after sample %i is missing time',
    (at) => {
      const times = steps(at + 1000, 0.01).map((t, i) => (i > at ? t + 7 : t))
      const recording = timed(times)
      expect(recording.header.flaws).toEqual([
        { kind: 'gap', sample: at, line: null, count: 700, duration_s: expect.closeTo(7, 9), text: null },
      ])
      const statistics = spanStatistics(recording)
      expect(statistics.missing_s).toBeCloseTo(7, 6)
      expect(statistics.charge_C).toBeCloseTo(times.length * 0.01, 6)
    },
  )

  test('a few samples left out of an even run are dropped samples', () => {
    const times = steps(3000).filter((_, i) => i !== 700 && i !== 1500 && i !== 1501)
    expect(timed(times).header.flaws.map(({ kind, sample, count }) => [kind, sample, count])).toEqual([
      ['dropped', 699, 1],
      ['dropped', 1498, 2],
    ])
    expect(timed(times).header.flawTotals[0]).toMatchObject({ places: 2, count: 3 })
  })

  test.each([1000, BLOCK_SAMPLES - 1])(
    'a clock that steps back after sample %i keeps rising and says so',
    (at) => {
      const times = steps(at + 500).map((t, i) => (i > at ? t - 3 : t))
      const recording = timed(times)
      expect(recording.header.flaws).toEqual([
        {
          kind: 'clock-backwards',
          sample: at,
          line: null,
          count: 1,
          duration_s: expect.closeTo(2.99, 9),
          text: null,
        },
      ])
      expect(timeOfSample(recording, at + 400)).toBeCloseTo((at + 400) * 0.01, 6)
    },
  )

  test('a lasting change of rate is no flaw', () => {
    const slow = [...steps(2000, 0.001), ...steps(2000, 0.01).map((t) => 2 + t)]
    const fast = [...steps(2000, 0.01), ...steps(2000, 0.001).map((t) => 20 + t)]
    for (const times of [slow, fast]) {
      expect(timed(times).header.flaws).toEqual([])
      expect(timed(times).header.covered_s).toBeCloseTo(22, 1)
    }
  })

  test('stamps too coarse for the rate share their time', () => {
    const coarse = Array.from({ length: 3000 }, (_, i) => Math.floor(i / 3) / 1000)
    const recording = timed(coarse, null, 0.001)
    expect(recording.header.flaws).toEqual([])
    expect(timeOfSample(recording, 1)).toBeCloseTo(1 / 3000, 6)
    expect(recording.header.covered_s).toBeCloseTo(1, 3)
  })

  test('times that never advance are refused with a cure', () => {
    expect(() => timed([0, 0, 0])).toThrow(/never advance.*sampling rate/)
  })

  test('whatever the times, they come out rising, and charge needs covered time', () => {
    const times = fc.array(
      fc.oneof(
        fc.integer({ min: -1e9, max: 1e9 }).map((ms) => ms / 1000),
        fc.integer({ min: 0, max: 20 }),
      ),
      {
        minLength: 2,
        maxLength: 200,
      },
    )
    fc.assert(
      fc.property(times, (list) => {
        // Two samples, the second earlier, leave nothing to tell the rate from.
        fc.pre(list.some((t, i) => i > 0 && t > list[i - 1]))
        const recording = timed(list.map((t) => t - list[0]))
        let before = Number.NEGATIVE_INFINITY
        for (let i = 0; i < list.length; i++) {
          const time = timeOfSample(recording, i)
          expect(time).toBeGreaterThanOrEqual(before)
          before = time
        }
        const { covered_s, duration_s } = recording.header
        expect(covered_s).toBeLessThanOrEqual(duration_s * (1 + 1e-9))
      }),
    )
  })
})

describe('values', () => {
  test('missing samples are one flaw for each stretch, across blocks too', () => {
    const current = new Float32Array(BLOCK_SAMPLES + 100).fill(1)
    current.fill(Number.NaN, BLOCK_SAMPLES - 5, BLOCK_SAMPLES + 5)
    current[3] = Number.POSITIVE_INFINITY
    const { flaws } = timed(steps(current.length), current).header
    expect(flaws.map(({ kind, sample, count }) => [kind, sample, count])).toEqual([
      ['not-a-number', 3, 1],
      ['not-a-number', BLOCK_SAMPLES - 5, 10],
    ])
    expect(flaws[1].duration_s).toBeCloseTo(0.1, 9)
  })

  test('of very many flaws the first are listed and all are counted', () => {
    const current = Float32Array.from({ length: 6000 }, (_, i) => (i % 2 ? 1 : Number.NaN))
    const { flaws, flawTotals } = timed(steps(6000), current).header
    expect(flaws).toHaveLength(FLAWS_KEPT)
    expect(flawTotals).toMatchObject([{ kind: 'not-a-number', places: 3000, count: 3000 }])
  })

  const burst = (top: number, digit: number) => {
    const random = stream(3, 0, 0)
    return Float32Array.from({ length: 20_000 }, (_, i) => {
      const level = i % 2000 < 300 ? 0.25 + 0.03 * Math.sin(i / 20) : i % 2000 < 600 ? 0.08 : 0.001
      return Math.min(Math.round((level + 0.002 * random.normal()) / digit) * digit, top)
    })
  }

  test('noisy bursts cut off at the end of the range are saturated', () => {
    const { flaws } = timed(steps(20_000), burst(0.2, 1e-5)).header
    expect(flaws).toHaveLength(10)
    expect(flaws[1]).toMatchObject({ kind: 'saturated', sample: 2000, count: 300 })
    expect(flaws[1].duration_s).toBeCloseTo(3, 6)
  })

  test('neither noisy peaks within the range nor a quantised plateau are', () => {
    expect(timed(steps(20_000), burst(1, 1e-5)).header.flaws).toEqual([])
    const plateau = Float32Array.from({ length: 20_000 }, (_, i) => (i % 100 < 30 ? 0.02 : 0.01))
    expect(timed(steps(20_000), plateau).header.flaws).toEqual([])
  })

  test('a range that ends below zero counts too', () => {
    const { flaws } = timed(
      steps(20_000),
      burst(0.2, 1e-5).map((x) => -x),
    ).header
    expect(flaws.filter((flaw) => flaw.kind === 'saturated')).toHaveLength(10)
  })
})
