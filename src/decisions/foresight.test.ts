import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { mostWakes, type Store } from './foresight.ts'

const constant = (value: number, steps: number) => new Float64Array(steps).fill(value)
const store = (over: Partial<Store> = {}, steps = 100): Store => ({
  initial_C: 10,
  full_C: 50,
  kept: constant(1, steps),
  gain_C: constant(3, steps),
  load_C: constant(1, steps),
  floor_C: constant(0, steps),
  wake_C: 4,
  least: 0,
  most: 10,
  ...over,
})

describe('the most wakes that foresight allows', () => {
  it('are what comes in less what rest takes, and the store used up, over the charge of a wake', () => {
    expect(mostWakes(store(), false)).toBeCloseTo((10 + 100 * (3 - 1)) / 4, 9)
  })

  it('are no more than the shortest interval makes', () => {
    expect(mostWakes(store({ most: 0.1 }), false)).toBeCloseTo(10, 9)
  })

  it('keep enough for a night ahead, or there are none', () => {
    const gain_C = Float64Array.from({ length: 40 }, (_, t) => (t < 20 ? 6 : 0))
    // The night takes 20: what the day brings beyond that, and the store, is free.
    expect(mostWakes(store({ gain_C }, 40), false)).toBeCloseTo((10 + 120 - 40) / 4, 9)
    expect(mostWakes(store({ gain_C, full_C: 19 }, 40), false)).toBeNull()
    // A device that may stop reports in the day and is dark at night.
    expect(mostWakes(store({ gain_C, full_C: 19 }, 40), true)).toBeGreaterThan((10 + 100) / 4 - 1e-9)
  })

  it('keep to the charge that cold locks in', () => {
    const floor_C = Float64Array.from({ length: 100 }, (_, t) => (t === 99 ? 8 : 0))
    // Before the last step 8 must be left, of which that step's one wake takes 4.
    expect(mostWakes(store({ most: 1 }), false)).toBeCloseTo(52.5, 9)
    expect(mostWakes(store({ most: 1, floor_C }), false)).toBeCloseTo((10 + 99 * 2 - 8) / 4 + 1, 9)
  })

  it('equal the best of all plans of whole wakes on small stores', () => {
    for (let k = 0; k < 200; k++) {
      const random = stream(11, k, 1)
      const whole = (most: number) => Math.floor(random.uniform() * (most + 1))
      const steps = 6
      const small = store({
        initial_C: whole(6),
        full_C: 6,
        gain_C: Float64Array.from({ length: steps }, () => whole(3)),
        load_C: Float64Array.from({ length: steps }, () => whole(1)),
        floor_C: Float64Array.from({ length: steps }, () => whole(1)),
        kept: constant(1, steps),
        wake_C: 1,
        least: 0,
        most: 2,
      })
      expect(mostWakes(small, false)).toBe(bestOfAll(small, 0, small.initial_C))
    }
  })

  it('are never fewer than those of any plan where the store leaks', () => {
    for (let k = 0; k < 200; k++) {
      const random = stream(12, k, 1)
      const steps = 40
      const leaky = store(
        {
          kept: Float64Array.from({ length: steps }, () => 0.9 + 0.1 * random.uniform()),
          gain_C: Float64Array.from({ length: steps }, () => 6 * random.uniform()),
          least: 0.05,
        },
        steps,
      )
      const most = mostWakes(leaky, false)
      const wakes = randomPlan(leaky, () => random.uniform())
      if (wakes !== null) expect(most ?? -1).toBeGreaterThanOrEqual(wakes - 1e-9)
    }
  })
})

/** Every plan of whole wakes, tried one by one. */
function bestOfAll(s: Store, t: number, q: number): number | null {
  if (t === s.kept.length) return 0
  if (q < s.floor_C[t]) return null
  let best: number | null = null
  for (let w = 0; w <= s.most; w++) {
    const left = q + s.gain_C[t] - s.load_C[t] - w * s.wake_C
    if (left < 0) break
    const rest = bestOfAll(s, t + 1, Math.min(left, s.full_C))
    if (rest !== null && (best === null || w + rest > best)) best = w + rest
  }
  return best
}

function randomPlan(s: Store, uniform: () => number): number | null {
  let q = s.initial_C
  let wakes = 0
  for (let t = 0; t < s.kept.length; t++) {
    const free = s.kept[t] * q + s.gain_C[t] - s.load_C[t]
    const can = Math.min(free / s.wake_C, s.most)
    if (can < s.least) return null
    const w = s.least + uniform() ** 3 * (can - s.least)
    wakes += w
    q = Math.min(free - w * s.wake_C, s.full_C)
  }
  return wakes
}
