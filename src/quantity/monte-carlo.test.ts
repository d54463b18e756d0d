import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { monteCarlo, shortestInterval, symmetricInterval } from './monte-carlo.ts'
import { gaussian } from './sampler.ts'

const countTo = (n: number) => Float64Array.from({ length: n }, (_, i) => i + 1)

describe('monteCarlo', () => {
  it('gives equal results from equal streams, and draws the inputs in order', () => {
    const run = () => monteCarlo(([a, b]) => a - b, [(s) => s.uniform(), gaussian(0, 1)], 50, stream(1, 2, 3))
    expect(run()).toEqual(run())
    const s = stream(1, 2, 3)
    const first = s.uniform() - s.normal()
    expect(run().sorted).toContain(first)
  })

  it('averages and spreads as the sorted values do', () => {
    let n = 0
    const { value, u, sorted } = monteCarlo(([x]) => x, [() => [4, 1, 3, 2][n++]], 4, stream(0, 0, 0))
    expect([...sorted]).toEqual([1, 2, 3, 4])
    expect(value).toBe(2.5)
    expect(u).toBeCloseTo(Math.sqrt(5 / 3), 14)
  })

  it('refuses one trial and a model without a value', () => {
    expect(() => monteCarlo(([x]) => x, [gaussian(0, 1)], 1, stream(0, 0, 0))).toThrow(/not 1/)
    expect(() => monteCarlo(([x]) => Math.log(x), [() => -1], 5, stream(0, 0, 0))).toThrow(
      /NaN for the inputs -1/,
    )
  })
})

describe('coverage intervals of sampled values', () => {
  it('count values as JCGM 101, 7.7 does: 95 of 100 inside, then 190 of 201', () => {
    // q = 95, r = (100 − 95 + 1)/2 = 3; and q = 191 (pM = 190.95), r = (201 − 191)/2 = 5.
    expect(symmetricInterval(countTo(100), 0.95)).toEqual({ low: 3, high: 98 })
    expect(symmetricInterval(countTo(201), 0.95)).toEqual({ low: 5, high: 196 })
  })

  it('the shortest one leaves out the thin tail', () => {
    const squares = countTo(100).map((x) => x * x)
    expect(shortestInterval(squares, 0.9)).toEqual({ low: 1, high: 91 ** 2 })
    expect(symmetricInterval(squares, 0.9)).toEqual({ low: 25, high: 95 ** 2 })
  })

  it('refuse too few values and probabilities outside 0..1', () => {
    expect(() => shortestInterval(countTo(10), 0.99)).toThrow(/10 values are too few/)
    expect(() => symmetricInterval(countTo(10), 1)).toThrow(RangeError)
  })
})
