import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { stabilise } from './stabilise.ts'
import { correlationOf } from './stabilise-correlation.ts'
import { digitOf } from './stabilise-digit.ts'
import { samplesOf } from './states-samples.ts'
import { scanSamples } from './states-scan.ts'

const INTERVAL_S = 0.001

function noisy(levels: readonly number[], share: number, length: number, correlation = 0): Float32Array {
  const draws = stream(7, 0, 0)
  let wander = 0
  return Float32Array.from({ length: levels.length * length }, (_, i) => {
    wander = correlation * wander + Math.sqrt(1 - correlation ** 2) * draws.normal()
    return levels[Math.floor(i / length)] * (1 + share * wander)
  })
}

function deviation(values: ArrayLike<number>): number {
  const all = Array.from(values)
  const mean = all.reduce((sum, x) => sum + x / all.length, 0)
  return Math.sqrt(all.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (all.length - 1))
}

describe('stabilise', () => {
  it.each([0.03, 0.2])('gives noise of %f of the level a deviation of one at every level', (share) => {
    const levels = [50e-6, 0.002, 0.1]
    const current_A = noisy(levels, share, 4096)
    const scale = stabilise(scanSamples(samplesOf(current_A, INTERVAL_S)), INTERVAL_S, 0, 1)
    levels.forEach((_, k) => {
      const y = Array.from(current_A.subarray(4096 * k, 4096 * (k + 1)), scale.y)
      // 1 % of the level is added to the noise, and the largest step of each block is left out of it.
      expect(deviation(y)).toBeGreaterThan(0.85)
      expect(deviation(y)).toBeLessThan(1.15)
    })
  })

  it('rises, is odd, and is zero at zero', () => {
    const scale = stabilise(
      scanSamples(samplesOf(noisy([1e-5, 0.3], 0.05, 512), INTERVAL_S)),
      INTERVAL_S,
      0,
      1,
    )
    let before = -1e-9
    for (let x = 0; x < 0.3; x += 1e-4) {
      expect(scale.y(x)).toBeGreaterThan(before)
      before = scale.y(x)
      expect(scale.y(-x)).toBeCloseTo(-before, 12)
    }
    expect(scale.y(0)).toBe(0)
  })

  it('sees hum that is slower than a block', () => {
    const current_A = Float32Array.from(
      { length: 60_000 },
      (_, i) => 1e-3 * (1 + 0.2 * Math.sin(2 * Math.PI * 50 * i * 1e-5)),
    )
    const { hum_A } = stabilise(scanSamples(samplesOf(current_A, 1e-5)), 1e-5, 0, 1)
    expect(hum_A).toBeGreaterThan(0.9 * (2e-4 / Math.SQRT2))
    expect(hum_A).toBeLessThan(1.1 * (2e-4 / Math.SQRT2))
  })

  it('refuses a recording without a number', () => {
    const scan = scanSamples(samplesOf(new Float32Array(100).fill(Number.NaN), 1))
    expect(() => stabilise(scan, 1, 0, 1)).toThrow('no sample of the recording is a number')
  })
})

describe('digitOf', () => {
  const rounded = (digit: number) =>
    noisy([0.0004, 0.02, 0.4], 0.05, 2048).map((x) => Math.round(x / digit) * digit)

  it.each([1e-5, 4e-5, 0.0001])('finds a digit of %f A', (digit) => {
    expect(digitOf(samplesOf(rounded(digit), INTERVAL_S))).toBeCloseTo(digit, 9)
  })

  it('finds none in a continuous reading, nor in a constant one', () => {
    expect(digitOf(samplesOf(noisy([0.0004, 0.4], 0.05, 2048), INTERVAL_S))).toBeNull()
    expect(digitOf(samplesOf(new Float32Array(500).fill(0.1), INTERVAL_S))).toBeNull()
  })
})

describe('correlationOf', () => {
  // First-order autoregression: steps have variance 2 σ² (1 − ρ), a mean has (1 + ρ) / (1 − ρ) times that of white noise.
  it.each([0, 0.5])('sees a correlation of %f', (rho) => {
    const samples = samplesOf(noisy([0.01], 0.05, 65_536, rho), INTERVAL_S)
    const { deviation: ratio, penalty } = correlationOf(samples, scanSamples(samples))
    expect(ratio).toBeCloseTo(1 / Math.sqrt(1 - rho), 1)
    expect(Math.abs(penalty / ((1 + rho) / (1 - rho)) - 1)).toBeLessThan(0.1)
  })
})
