import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { compensatedSum } from '../numeric/sum.ts'
import { makeUp } from './made-up.ts'
import { madeUpPlan } from './made-up-plan.ts'
import { recordingOf } from './memory.ts'
import { type Analysis, analyse } from './states.ts'
import { samplesOf, samplesOfRecording } from './states-samples.ts'

/** Wakes of 0.3 s at 50 mA every 2 s over a rest of 0.7 mA, `shape` on top of it. */
function wakes(
  interval_s: number,
  shape: (i: number, current_A: number) => number,
  seconds = 30,
): Float32Array {
  const samplesIn = (duration_s: number) => Math.round(duration_s / interval_s)
  const working = (i: number) => (i + samplesIn(1)) % samplesIn(2) < samplesIn(0.3)
  return Float32Array.from({ length: samplesIn(seconds) }, (_, i) => shape(i, working(i) ? 0.05 : 0.0007))
}

const means = ({ states }: Analysis) => states.map(({ mean_A }) => mean_A)

describe('analyse', () => {
  it('finds the states of a clean recording exactly', () => {
    const { states, segments, cycles } = analyse(
      samplesOf(
        wakes(0.001, (_, x) => x),
        0.001,
      ),
    )
    expect(states).toHaveLength(2)
    expect(states[0].mean_A).toBeCloseTo(0.0007, 9)
    expect(states[1].mean_A).toBeCloseTo(0.05, 8)
    expect(cycles.list).toHaveLength(15)
    expect(cycles.period_s!.median).toBeCloseTo(2, 9)
    expect(states[1].dwell!.median_s).toBeCloseTo(0.3, 9)
    expect([...segments.starts.subarray(0, 3)]).toEqual([0, 1000, 1300])
    expect(states[0].timeShare + states[1].timeShare).toBeCloseTo(1, 12)
    expect(states[0].chargeShare + states[1].chargeShare).toBeCloseTo(1, 12)
  })

  it('shares out the charge without loss', () => {
    const draws = stream(3, 0, 0)
    const current_A = wakes(0.001, (_, x) => x * (1 + 0.1 * draws.normal()))
    const { segments, states } = analyse(samplesOf(current_A, 0.001))
    const whole = compensatedSum(current_A) * 0.001
    expect(Math.abs(compensatedSum(segments.charge_C) / whole - 1)).toBeLessThan(1e-12)
    expect(Math.abs(states.reduce((sum, { charge_C }) => sum + charge_C, 0) / whole - 1)).toBeLessThan(1e-12)
  })

  it('gives the same for a recording in blocks as for an array', () => {
    const { current_A, interval_s } = makeUp(madeUpPlan(1, 3), 1, 3)
    const columns = { count: current_A.length, time_s: null, current_A, voltage_V: null }
    const fromBlocks = analyse(samplesOfRecording(recordingOf(columns, { interval_s })))
    const fromArray = analyse(samplesOf(current_A, interval_s))
    expect([...fromBlocks.segments.starts]).toEqual([...fromArray.segments.starts])
    expect(means(fromBlocks)).toEqual(means(fromArray))
  })

  it('weighs uneven samples by their holds', () => {
    const current_A = wakes(0.001, (_, x) => x)
    const time_s = Float64Array.from(current_A, (_, i) => i * 0.001 + (i % 2) * 0.0004)
    const recording = recordingOf({ count: current_A.length, time_s, current_A, voltage_V: null })
    const { states } = analyse(samplesOfRecording(recording))
    const charge_C = states.reduce((sum, state) => sum + state.charge_C, 0)
    expect(charge_C).toBeCloseTo(15 * (0.3 * 0.05 + 1.7 * 0.0007), 4)
    expect(states).toHaveLength(2)
  })

  it('bears missing samples, and refuses a recording of nothing else', () => {
    const holes = wakes(0.001, (i, x) => (i % 97 < 5 || (i > 5000 && i < 5200) ? Number.NaN : x))
    const { states, cycles } = analyse(samplesOf(holes, 0.001))
    expect(states).toHaveLength(2)
    expect(states[0].mean_A).toBeCloseTo(0.0007, 9)
    expect(cycles.list).toHaveLength(15)
    expect(() => analyse(samplesOf(new Float32Array(50).fill(Number.NaN), 1))).toThrow(RangeError)
  })

  it.each([
    ['constant', () => 0.02],
    ['all zero', () => 0],
  ])('finds one state and no cycles in a current that is %s', (_, current) => {
    const { states, cycles } = analyse(samplesOf(Float32Array.from({ length: 3000 }, current), 0.01))
    expect(states).toHaveLength(1)
    expect(states[0].mean_A).toBeCloseTo(current(), 9)
    expect(cycles.rest).toBeNull()
    expect(cycles.list).toHaveLength(0)
  })

  it('does with a single sample', () => {
    expect(means(analyse(samplesOf(Float32Array.of(0.5), 1)))).toEqual([0.5])
  })

  it('takes two stray samples for spikes and three for a state', () => {
    const spiked = (length: number) =>
      wakes(0.001, (i, x) => (i % 4000 >= 500 && i % 4000 < 500 + length ? 0.4 : x))
    expect(analyse(samplesOf(spiked(2), 0.001)).states).toHaveLength(2)
    expect(analyse(samplesOf(spiked(3), 0.001)).states).toHaveLength(3)
  })

  it.each([
    [50, 0.001],
    [60, 0.0001],
    [50, 0.00002],
  ])('does not split a rest that hums at %i Hz, sampled every %f s', (frequency, interval_s) => {
    const hum = (i: number) => 0.0002 * Math.sin(2 * Math.PI * frequency * i * interval_s)
    const { states, cycles } = analyse(
      samplesOf(
        wakes(interval_s, (i, x) => x + hum(i), 10),
        interval_s,
      ),
    )
    expect(states).toHaveLength(2)
    expect(Math.abs(states[0].mean_A / 0.0007 - 1)).toBeLessThan(0.01)
    expect(cycles.list).toHaveLength(5)
  })

  it.each([2, 10, 40])(
    'takes bursts of %i samples of a converter for one state with their mean',
    (length) => {
      const bursts = (i: number, x: number) => (x < 0.01 ? (i % 100 < length ? 0.003 : 0.0001) : x)
      const { states, cycles } = analyse(samplesOf(wakes(0.00005, bursts, 10), 0.00005))
      expect(states).toHaveLength(2)
      const mean = (length * 0.003 + (100 - length) * 0.0001) / 100
      expect(Math.abs(states[0].mean_A / mean - 1)).toBeLessThan(0.01)
      expect(cycles.list).toHaveLength(5)
    },
  )

  it('keeps a rest that drifts by a fifth as one state', () => {
    const draws = stream(6, 0, 0)
    const drifting = wakes(0.001, (i, x) => x * (1 + (0.2 * i) / 30_000) * (1 + 0.02 * draws.normal()))
    expect(analyse(samplesOf(drifting, 0.001)).states).toHaveLength(2)
  })

  it('states an uncertainty that covers the truth as often as it says', () => {
    let covered = 0
    for (let seed = 0; seed < 40; seed++) {
      const draws = stream(8, seed, 0)
      let wander = 0
      const noisy = wakes(0.001, (_, x) => {
        wander = 0.7 * wander + Math.sqrt(1 - 0.49) * draws.normal()
        return x * (1 + 0.1 * wander)
      })
      const { states } = analyse(samplesOf(noisy, 0.001))
      const truths = [0.0007, 0.05]
      covered += truths.filter((truth, k) => Math.abs(states[k].mean_A - truth) <= 2 * states[k].u_A).length
    }
    // 95 % of 80 are 76; fewer than 70 come about by chance less than once in a hundred times.
    expect(covered).toBeGreaterThanOrEqual(70)
  })
})
