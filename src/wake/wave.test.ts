import { describe, expect, it } from 'vitest'
import { aStep, aWake, EVERYTHING } from '../../test/example-wakes.ts'
import { stream } from '../numeric/random.ts'
import { sampleWake } from './sample-wake.ts'
import { waveOf } from './wave.ts'

describe('the wave of one wake', () => {
  it('draws every step once, without gaps, peaks first', () => {
    const wave = waveOf(EVERYTHING)
    expect(wave.map(({ name, kind }) => `${name}: ${kind}`)).toEqual([
      'boot: step',
      'sense: step',
      'store: step',
      'join: peak',
      'join: step',
      'send: step',
      'listen: step',
    ])
    wave.forEach((segment, i) => {
      expect(segment.t0_s).toBe(i === 0 ? 0 : wave[i - 1].t1_s)
    })
    expect(wave.at(-1)!.t1_s).toBeCloseTo(0.3 + 0.8 + 0.1 + 2.5 + 0.4 + 1.2, 12)
    expect(wave[3].t1_s - wave[3].t0_s).toBeCloseTo(0.008, 12)
    expect(wave[5].share).toBeCloseTo(0.9 / 3, 12)
  })
  it('lets a peak that is longer than its step fill it', () => {
    const steps = [aStep({ duration_s: 0.01, peak: { current_A: 0.3, duration_s: 1 } })]
    expect(waveOf(aWake({ steps }))).toEqual([
      { t0_s: 0, t1_s: 0.01, current_A: 0.3, name: 'work', kind: 'peak', share: 1 },
    ])
  })
  it("draws the step's current beside the peak: 60 mA over 10 ms, of them 2 ms at 200 mA, is 25 mA and its peak", () => {
    const steps = [aStep({ duration_s: 0.01, current_A: 0.025, peak: { current_A: 0.2, duration_s: 0.002 } })]
    const charge_C = waveOf(aWake({ steps })).reduce(
      (sum, { t0_s, t1_s, current_A }) => sum + (t1_s - t0_s) * current_A,
      0,
    )
    expect(charge_C).toBeCloseTo(0.06 * 0.01, 12)
  })
  it('is empty without steps', () => {
    expect(waveOf(aWake({ steps: [] }))).toEqual([])
  })
})

describe('a single wake', () => {
  const retries = { probability: 1, times: 1, backoff_s: 5, failedDuration_s: 2 }
  it('holds its failed tries with the rest between them, and nothing after the last', () => {
    const wake = aWake({
      rest_A: 1e-6,
      steps: [aStep({ name: 'join', retries, reports: 1 }), aStep({ name: 'send', reports: 1 })],
    })
    const { segments, reports } = sampleWake(wake, 1, stream(1, 0, 0))
    expect(segments).toEqual([
      { name: 'join', kind: 'failed try', duration_s: 2, current_A: 0.01 },
      { name: 'join', kind: 'back-off', duration_s: 5, current_A: 1e-6 },
      { name: 'join', kind: 'failed try', duration_s: 2, current_A: 0.01 },
    ])
    expect(reports).toBe(0)
  })
  it('does a step of every sixth wake in the sixth, the twelfth …', () => {
    const wake = aWake({ steps: [aStep({ every: 6, reports: 6 })] })
    const reports = Array.from({ length: 12 }, (_, i) => sampleWake(wake, i + 1, stream(1, i, 0)).reports)
    expect(reports).toEqual([0, 0, 0, 0, 0, 6, 0, 0, 0, 0, 0, 6])
  })
})
