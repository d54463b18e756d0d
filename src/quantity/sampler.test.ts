import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { studentCdf } from '../numeric/student.ts'
import { monteCarlo, type Sampler } from './monte-carlo.ts'
import { arcsine, curvilinearTrapezoid, gaussian, rectangular, scaledT } from './sampler.ts'

const TRIALS = 40_000
const draws = (sampler: Sampler, path: number) =>
  monteCarlo(([x]) => x, [sampler], TRIALS, stream(7, path, 0))

describe('samplers', () => {
  // Expectation and standard deviation as JCGM 101, 6.4 gives them.
  it.each<[string, Sampler, number, number]>([
    ['gaussian', gaussian(3, 0.5), 3, 0.5],
    ['rectangular', rectangular(-1, 5), 2, 6 / Math.sqrt(12)],
    ['curvilinear trapezoid', curvilinearTrapezoid(2, 4, 0.5), 3, Math.sqrt(4 / 12 + 0.5 ** 2 / 9)],
    ['arcsine', arcsine(10, 14), 12, 4 / Math.sqrt(8)],
    ['t of 9 degrees of freedom', scaledT(1, 2, 9), 1, 2 * Math.sqrt(9 / 7)],
    ['t of infinitely many', scaledT(1, 2, Infinity), 1, 2],
  ])('%s has its mean and standard deviation', (_, sampler, mean, deviation) => {
    const { value, u } = draws(sampler, 1)
    // Four standard errors; that of u is taken for a normal law or a t law of kurtosis 4.2.
    expect(Math.abs(value - mean)).toBeLessThan((4 * deviation) / Math.sqrt(TRIALS))
    expect(Math.abs(u / deviation - 1)).toBeLessThan(4 * Math.sqrt(3.2 / 4 / TRIALS))
  })

  it.each([1, 2.5, 30])('t of %d degrees of freedom follows its distribution function', (dof) => {
    const { sorted } = draws(scaledT(0, 1, dof), 2)
    let worst = 0
    sorted.forEach((t, i) => {
      worst = Math.max(worst, Math.abs(studentCdf(t, dof) - (i + 0.5) / TRIALS))
    })
    expect(worst).toBeLessThan(1.63 / Math.sqrt(TRIALS)) // Kolmogorov & Smirnov, 1 % point
  })

  it('keep inside their limits', () => {
    const { sorted } = draws(curvilinearTrapezoid(2, 4, 0.5), 3)
    expect(sorted[0]).toBeGreaterThanOrEqual(1.5)
    expect(sorted[TRIALS - 1]).toBeLessThanOrEqual(4.5)
  })

  it('refuse laws that are none', () => {
    expect(() => gaussian(0, -1)).toThrow(RangeError)
    expect(() => rectangular(2, 1)).toThrow(/2 and 1/)
    expect(() => arcsine(2, 1)).toThrow(RangeError)
    expect(() => curvilinearTrapezoid(0, 1, 0.6)).toThrow(/0\.6/)
    expect(() => scaledT(0, 1, 0)).toThrow(RangeError)
  })
})
