import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import { chunkPlayer, type Ensemble, ensembleOf } from '../outlook/ensemble.ts'
import type { RunOutcome } from '../outlook/run.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { cellOf } from '../supply/cell-catalogue.ts'
import { differencesOf } from './compare-variants.ts'

const choices = { years: 3, runs: 16, seed: 4, stepsPerHour: 1, cutDay: 181, calendarYear: 2027 }

function design(duration_s: number): Outpost {
  const base = exact({
    ...sunlit,
    wake: { ...sunlit.wake, steps: [step({ duration_s })] },
    supply: {
      ...sunlit.supply,
      pack: { ...sunlit.supply.pack, cell: cellOf('Li-ion', 1800), capacity_C: 1800 },
    },
  })
  return { ...base, wake: { ...base.wake, rest_A: { kind: 'normal', value: 60e-6, u: 20e-6 } } }
}

function outcomesOf(ensemble: Ensemble): RunOutcome[] {
  const outcomes: RunOutcome[] = []
  chunkPlayer(ensemble)(0, ensemble.runs, (_, outcome) => outcomes.push(outcome))
  return outcomes
}

describe('differences run by run', () => {
  const one = outcomesOf(ensembleOf(design(12), choices))

  it('are nothing at all between a design and itself', () => {
    const { survival, reportsPerDay } = differencesOf(one, outcomesOf(ensembleOf(design(12), choices)))
    expect(survival).toEqual({ mean: 0, low: 0, high: 0, isReal: false })
    expect(reportsPerDay.mean).toBe(0)
  })

  it('show a small change that two independent ensembles would not', () => {
    const other = outcomesOf(ensembleOf(design(12.4), choices))
    const independent = outcomesOf(ensembleOf(design(12.4), { ...choices, seed: 5 }))
    const width = ({ survival: { low, high } }: ReturnType<typeof differencesOf>) => high - low
    expect(differencesOf(one, other).survival.mean).toBeLessThan(0)
    expect(width(differencesOf(one, other))).toBeLessThan(0.7 * width(differencesOf(one, independent)))
  })

  it('take the mean and Student interval of the pairs', () => {
    const run = (survived: number): RunOutcome => ({
      winters: 10,
      survived,
      life_days: 3650,
      reportsPerDay: 1,
    })
    const { survival } = differencesOf([run(5), run(6), run(7)], [run(6), run(8), run(10)])
    // Differences 0.1, 0.2, 0.3; t(0.975, 2) = 4.303 (tables of Student's t): 0.2 ± 4.303 · 0.1/√3.
    expect(survival.mean).toBeCloseTo(0.2, 12)
    expect(survival.high - survival.mean).toBeCloseTo((4.303 * 0.1) / Math.sqrt(3), 3)
    expect(() => differencesOf([run(1)], [run(1)])).toThrow(RangeError)
  })
})
