import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import type { Level } from './levels.ts'
import { stabilise } from './stabilise.ts'
import { cheapestPath } from './states-path.ts'
import { samplesOf } from './states-samples.ts'
import { scanSamples } from './states-scan.ts'

const PENALTY = 20

function sampleCost(y: number, { y: centre, deviation }: Level): number {
  return Math.min(((y - centre) / deviation) ** 2, 0.8 * PENALTY) + 2 * Math.log(deviation)
}

/** Viterbi over every sample and every pair of levels, without shortcuts. */
function leastCost(y: readonly number[], levels: readonly Level[]): number {
  let cost = levels.map(() => 0)
  for (const value of y) {
    const best = Math.min(...cost)
    cost = cost.map((own, k) => Math.min(own, best + PENALTY) + sampleCost(value, levels[k]))
  }
  return Math.min(...cost)
}

describe('cheapestPath', () => {
  it.each([1, 2, 3, 4, 5, 6])(
    'costs what the full search costs, whatever is passed over (seed %i)',
    (seed) => {
      const draws = stream(seed, 0, 0)
      const currents = [0.001, 0.0016, 0.02, 0.3]
      const current_A: number[] = []
      while (current_A.length < 6000) {
        const level = currents[Math.floor(4 * draws.uniform())]
        const length = Math.floor(4 * 300 ** draws.uniform())
        for (let i = 0; i < length; i++) current_A.push(level * (1 + 0.15 * draws.normal()))
      }
      const samples = samplesOf(Float64Array.from(current_A), 0.001)
      const scan = scanSamples(samples)
      const scale = stabilise(scan, 0.001, 0, 1)
      const levels = currents.map(
        (x, k): Level => ({ y: scale.y(x), deviation: 0.9 + 0.2 * k, stretches: 1 }),
      )
      const y = current_A.map(scale.y)
      const { starts, levels: chosen } = cheapestPath(samples, scan, scale, levels, PENALTY)
      let cost = PENALTY * (starts.length - 1)
      starts.forEach((from, k) => {
        for (let i = from; i < (starts[k + 1] ?? y.length); i++) cost += sampleCost(y[i], levels[chosen[k]])
      })
      expect(starts[0]).toBe(0)
      expect(cost).toBeCloseTo(leastCost(y, levels), 6)
    },
  )
})
