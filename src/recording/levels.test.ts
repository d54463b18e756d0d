import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { type LevelSample, levelsOf } from './levels.ts'

const at = (y: number): LevelSample => ({ y, variance: 1, spread: 0.5 })
const draws = (seed: number) => stream(seed, 0, 0)

describe('levelsOf', () => {
  it('finds as many levels as there are, each where it is', () => {
    const noise = draws(1)
    const stretches = [0, 10, 13, 200].flatMap((y, k) =>
      Array.from({ length: 5 + 3 * k }, () => at(y + 0.3 * noise.normal())),
    )
    const levels = levelsOf(stretches)
    expect(levels.map(({ stretches: count }) => count)).toEqual([5, 8, 11, 14])
    levels.forEach(({ y }, k) => {
      expect(Math.abs(y - [0, 10, 13, 200][k])).toBeLessThan(0.5)
    })
  })

  it('keeps a level that drifts as one, whose deviation covers the drift', () => {
    const drifting = Array.from({ length: 40 }, (_, k) => at(k / 4))
    const [level, ...others] = levelsOf([...drifting, ...Array.from({ length: 40 }, () => at(60))])
    expect(others).toHaveLength(1)
    expect(level.y).toBeCloseTo(39 / 8, 9)
    expect(level.deviation).toBeGreaterThan(2.5)
  })

  it('keeps a level that differs from wake to wake as one', () => {
    const noise = draws(2)
    const varied = Array.from({ length: 200 }, () => at(100 + 5 * noise.normal()))
    expect(levelsOf(varied)).toHaveLength(1)
  })

  it('is not widened by a stretch that strayed in', () => {
    const [level] = levelsOf([
      ...Array.from({ length: 20 }, () => at(5)),
      { y: 5.2, variance: 4000, spread: 0.5 },
    ])
    expect(level.deviation).toBeCloseTo(1, 9)
  })

  it('tells single visits apart', () => {
    expect(levelsOf([at(0), at(30), at(90)])).toHaveLength(3)
    expect(() => levelsOf([])).toThrow(RangeError)
  })
})
