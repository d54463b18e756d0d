import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import { answerAims } from './aims.ts'
import { chunkPlayer, type Ensemble, ensembleOf } from './ensemble.ts'
import { summarise } from './summary.ts'
import { emptyTally, mergeTally } from './tally.ts'
import { dateOfDay } from './verdict.ts'
import { wintersSurvived } from './winters.ts'

const choices = {
  years: 3,
  runs: 12,
  seed: 5,
  stepsPerHour: 1,
  cutDay: 181,
  calendarYear: 2027,
}
const uncertain = {
  ...exact(sunlit),
  wake: {
    ...exact(sunlit).wake,
    rest_A: { kind: 'normal', value: 60e-6, u: 10e-6 } as const,
    steps: exact({ ...sunlit, wake: { ...sunlit.wake, steps: [step({ duration_s: 9 })] } }).wake.steps,
  },
}
const ensemble = ensembleOf(uncertain, choices)
const summed = (parts: [number, number][], of: Ensemble = ensemble) => {
  const tally = emptyTally(of.years, of.budgetParts.length)
  for (const [from, to] of parts) mergeTally(tally, chunkPlayer(of)(from, to))
  return tally
}

describe('an ensemble', () => {
  const whole = summed([[0, 12]])

  it('counts the same however its runs are shared out, and differs by seed', () => {
    const parts = summed([
      [0, 5],
      [5, 6],
      [6, 12],
    ])
    expect(parts.counts.survived).toBe(whole.counts.survived)
    expect(parts.grids.stateByDay).toEqual(whole.grids.stateByDay)
    expect(parts.grids.lifeByDay).toEqual(whole.grids.lifeByDay)
    expect(parts.counts.reports).toBeCloseTo(whole.counts.reports, 6)
    const other = summed([[0, 12]], { ...ensemble, seed: 6 })
    expect(other.grids.stateByDay).not.toEqual(whole.grids.stateByDay)
  })

  it('counts every winter, day and run once, and closes its accounts', () => {
    expect(whole.counts.runs).toBe(12)
    expect(whole.counts.winters).toBe(36)
    expect(whole.grids.lifeByDay.reduce((a, b) => a + b, 0)).toBe(12)
    expect(whole.grids.stateByDay.reduce((a, b) => a + b, 0)).toBe(12 * 3 * 365)
    expect(whole.imbalance).toBeLessThan(1e-9)
  })

  it('spreads with the tolerances of the file', () => {
    const outlook = summarise(whole, { ...asked, budgetParts: ensemble.budgetParts })
    const rest = outlook.budget.find((part) => part.name === 'rest')
    if (rest === undefined) throw new Error('the budget has no rest')
    expect(rest.u_C / rest.charge_C).toBeGreaterThan(0.06) // 10 of 60 µA, estimated from 12 draws
    expect(rest.u_C / rest.charge_C).toBeLessThan(0.3)
  })

  it('has the budget of a day add up to what the runs took from the cell', () => {
    const calm = ensembleOf(exact(sunlit), { ...choices, runs: 2 })
    const tally = summed([[0, 2]], calm)
    const day_C = tally.grids.budget.reduce((a, b) => a + b, 0) / 2
    const self_C = tally.grids.budget[calm.budgetParts.findIndex((p) => p.name === 'self-discharge')] / 2
    // 144 wakes of 4 s at 80 mA and the 10 ms peak, rest 20 + 5 + 4 µA, charger 3 µA half the time.
    const wakes = 86_400 / 604
    const wake_C = 4 * 0.08 + 0.01 * (0.3 - 0.08)
    const expected = wakes * wake_C + 20e-6 * (86_400 - 4 * wakes) + 86_400 * (5e-6 + 4e-6 + 1.5e-6)
    expect(day_C - self_C).toBeCloseTo(expected, 6)
  })
})

const asked = {
  title: 'a test',
  seed: 5,
  aims: sunlit.aims,
  rechargeable: true,
  cutDay: 181,
  scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
}

describe('the share of winters', () => {
  const counts = (over: Partial<ReturnType<typeof emptyTally>['counts']>) => ({
    ...emptyTally(1, 0).counts,
    ...over,
  })

  /** Runs of `each` winters, so many of which were survived, one lost in a run. */
  const judged = ({ runs, survived, each }: { runs: number; survived: number; each: number }) => {
    const lost = runs * each - survived
    return counts({
      runs,
      judgedWinters: runs * each,
      judgedSurvived: survived,
      judgedSurvivedSquared: (runs - lost) * each ** 2 + lost * (each - 1) ** 2,
      judgedSurvivedWinters: survived * each,
      judgedWintersSquared: runs * each ** 2,
    })
  }

  it('has a wider interval when the winters of a run live and die together', () => {
    // 100 runs of 10 winters, 90 % survived: spread evenly, or ten runs lost whole.
    const evenly = wintersSurvived(
      counts({
        runs: 100,
        winters: 1000,
        survived: 900,
        survivedSquared: 8100,
        survivedWinters: 9000,
        wintersSquared: 10_000,
      }),
    )
    const together = wintersSurvived(
      counts({
        runs: 100,
        winters: 1000,
        survived: 900,
        survivedSquared: 9000,
        survivedWinters: 9000,
        wintersSquared: 10_000,
      }),
    )
    // Wilson for 900 of 1000 (Wilson 1927): 0.8798 to 0.9171.
    expect(evenly.low).toBeCloseTo(0.8798, 3)
    expect(evenly.high).toBeCloseTo(0.9171, 3)
    // As good as 100 independent runs, 90 of them good: 0.826 to 0.945.
    expect(together.low).toBeCloseTo(0.826, 2)
    expect(together.high).toBeCloseTo(0.945, 2)
  })

  it('counts each run once where nothing was lost', () => {
    const all = wintersSurvived(
      counts({
        runs: 20,
        winters: 200,
        survived: 200,
        survivedSquared: 2000,
        survivedWinters: 2000,
        wintersSquared: 2000,
      }),
    )
    expect(all.share).toBe(1)
    expect(all.low).toBeCloseTo(0.839, 2) // Wilson for 20 of 20
  })

  it('lets an aim hold, fail, or stay open', () => {
    const aims = { winters: 0.9, reportsPerDay: null, noBrownout: false, years: null }
    const answer = (survived: number) => {
      const runs = 1000
      const tally = { ...emptyTally(1, 0), counts: judged({ runs, survived, each: 1 }) }
      return answerAims(aims, tally, asked)[0].holds
    }
    // Wilson for 940, 800 and 905 of 1000: 0.924 to 0.953, 0.774 to 0.824, 0.885 to 0.922.
    expect([940, 800, 905].map(answer)).toEqual(['yes', 'no', 'cannot tell'])
  })

  it('is judged over the years that are aimed at, and told over all', () => {
    const aims = { winters: 0.9, reportsPerDay: null, noBrownout: false, years: 2 }
    const tally = { ...emptyTally(10, 0), counts: judged({ runs: 1000, survived: 990, each: 1 }) }
    Object.assign(tally.counts, { winters: 10_000, survived: 5000, wintersSquared: 100_000 })
    expect(answerAims(aims, tally, asked)[0]).toMatchObject({
      aim: 'survive 90 % of winters for 2 years',
      holds: 'yes',
    })
  })

  it('is never surer of a design that lost winters than of one that lost none', () => {
    for (const [runs, each] of [
      [50, 10],
      [200, 10],
      [200, 1],
      [1000, 5],
    ]) {
      let before = 1
      for (const lost of [0, 1, 2, 3, 5, 10, 20, 50]) {
        // Each in a run of its own.
        const survived = runs * each - lost
        const { low } = wintersSurvived(
          counts({
            runs,
            winters: runs * each,
            survived,
            survivedSquared: (runs - lost) * each ** 2 + lost * (each - 1) ** 2,
            survivedWinters: survived * each,
            wintersSquared: runs * each ** 2,
          }),
        )
        expect(low).toBeLessThanOrEqual(before)
        before = low
      }
    }
  })
})

describe('dates', () => {
  it('count days of the year from 0', () => {
    expect([0, 30, 31, 58, 59, 181, 345, 364, 365, -1].map(dateOfDay)).toEqual([
      '1 January',
      '31 January',
      '1 February',
      '28 February',
      '1 March',
      '1 July',
      '12 December',
      '31 December',
      '1 January',
      '31 December',
    ])
  })
})
