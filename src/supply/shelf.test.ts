import { describe, expect, it } from 'vitest'
import { best, quantileOf } from '../quantity/spread.ts'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import { findCell } from './cell-catalogue.ts'
import { chargeAtAge } from './shelf.ts'

const YEAR_S = 365 * 86_400
const cellNamed = (name: string) => {
  const cell = findCell(name)
  if (cell === null) throw new Error(`${name} is missing`)
  return cell
}

describe('a primary cell on the shelf', () => {
  it.each([
    // Makers' shelf lives at 20 °C; common practice, from memory.
    ['LR6', 10, 0.7, 0.85],
    ['LR20', 5, 0.85, 0.92],
    ['CR2032', 10, 0.88, 0.95],
    ['FR6', 15, 0.88, 0.97],
    ['ER14505', 10, 0.88, 0.97],
  ])('%s keeps after %d years what makers promise', (name, years, least, most) => {
    const left = best(chargeAtAge(cellNamed(name), exactly(years * YEAR_S)))
    expect(left).toBeGreaterThan(least)
    expect(left).toBeLessThan(most)
  })

  it('is full when new', () => {
    expect(chargeAtAge(cellNamed('LR6'), exactly(0))).toEqual({ kind: 'exact', value: 1 })
  })

  it.each<readonly [age_s: Uncertain, within: number]>([
    [{ kind: 'normal', value: 4 * YEAR_S, u: YEAR_S / 2 }, 0.003],
    [{ kind: 'uniform', low: YEAR_S, high: 5 * YEAR_S }, 0.003],
    [{ kind: 'below', limit: 6 * YEAR_S }, 0.003],
    [{ kind: 'skewed', typical: 2 * YEAR_S, p5: YEAR_S, p95: 6 * YEAR_S }, 0.011],
  ])('holds the less, the older it is, quantile by quantile: %o within %d of full', (age_s, within) => {
    const cell = cellNamed('LR6')
    for (const p of [0.05, 0.3, 0.5, 0.7, 0.95]) {
      const law = Math.exp(-cell.selfDischarge_per_year * (quantileOf(age_s, p) / YEAR_S))
      expect(Math.abs(quantileOf(chargeAtAge(cell, age_s), 1 - p) - law)).toBeLessThan(within)
    }
  })
})
