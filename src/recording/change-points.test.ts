import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { changePoints } from './change-points.ts'

/** Optimal partitioning without pruning, with two-pass sums of squares. */
function unpruned(values: readonly number[], penalty: number, shortest: number): number {
  const best = [-penalty]
  for (let end = 1; end <= values.length; end++) {
    best[end] = Number.POSITIVE_INFINITY
    for (let start = 0; start + shortest <= end; start++) {
      const part = values.slice(start, end)
      const mean = part.reduce((sum, x) => sum + x, 0) / part.length
      const squares = part.reduce((sum, x) => sum + (x - mean) ** 2, 0)
      best[end] = Math.min(best[end], best[start] + squares + penalty)
    }
  }
  return best[values.length]
}

describe('changePoints', () => {
  it('costs what optimal partitioning without pruning costs, for any shortest segment', () => {
    const values = fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 6, maxLength: 40 })
    fc.assert(
      fc.property(
        values,
        fc.integer({ min: 0, max: 300 }),
        fc.integer({ min: 1, max: 6 }),
        (x, penalty, shortest) => {
          const { cost, changes } = changePoints(x, { penalty, shortest })
          expect(cost).toBeCloseTo(unpruned(x, penalty, shortest), 7)
          const edges = [0, ...changes, x.length]
          for (let k = 1; k < edges.length; k++)
            expect(edges[k] - edges[k - 1]).toBeGreaterThanOrEqual(shortest)
        },
      ),
      { seed: 3, numRuns: 300 },
    )
  })

  it('with known noise equals the plain cost with squares and penalty scaled', () => {
    const draws = stream(1, 0, 0)
    const x = Array.from({ length: 300 }, (_, i) => (i % 100 < 50 ? 3 : 5) + 0.5 * draws.normal())
    const known = changePoints(x, { penalty: 12, noise: 0.5 })
    const plain = changePoints(x, { penalty: 12 * 0.25 })
    expect([...known.changes]).toEqual([...plain.changes])
    expect(known.cost).toBeCloseTo(plain.cost / 0.25, 8)
    expect([...known.changes]).toHaveLength(5)
  })

  it('refuses a negative penalty and segments that do not fit', () => {
    expect(() => changePoints([1, 2], { penalty: -1 })).toThrow(RangeError)
    expect(() => changePoints([1, 2], { penalty: 1, shortest: 3 })).toThrow('do not fit into 2 values')
    expect(() => changePoints([], { penalty: 1 })).toThrow(RangeError)
    expect(() => changePoints([1], { penalty: 1, noise: 0 })).toThrow(RangeError)
  })
})
