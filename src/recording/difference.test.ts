import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { differenceOf } from './difference.ts'
import { cheapestAssignment } from './difference-match.ts'
import { estimateOfMean, holm, testDifference } from './difference-test.ts'
import { type MadeUpPlan, makeUp } from './made-up.ts'
import { madeUpPlan } from './made-up-plan.ts'
import { analyse } from './states.ts'
import { samplesOf } from './states-samples.ts'

describe('testDifference', () => {
  // Sleep data of Student (1908): Welch's t = -1.8608, 17.776 degrees of freedom, p = 0.07939, 95 % interval -3.3654832 to
  // 0.2054832, as in the documentation of R's t.test (from memory).
  it("is Welch's test", () => {
    const estimate = (x: readonly number[]) => {
      const mean = x.reduce((sum, value) => sum + value, 0) / x.length
      const square = x.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (x.length - 1)
      return { value: mean, u: Math.sqrt(square / x.length), freedom: x.length - 1 }
    }
    const first = estimate([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2])
    const second = estimate([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4])
    const tested = testDifference(second, first)
    expect(tested.difference / tested.u).toBeCloseTo(-1.8608, 4)
    expect(tested.p).toBeCloseTo(0.07939, 5)
    expect(tested.low).toBeCloseTo(-3.3654832, 6)
    expect(tested.high).toBeCloseTo(0.2054832, 6)
  })

  it('takes exact values as they are', () => {
    const exact = (value: number) => ({ value, u: 0, freedom: 1 })
    expect(testDifference(exact(1), exact(1)).p).toBe(1)
    expect(testDifference(exact(1), exact(2)).p).toBe(0)
  })
})

describe('estimateOfMean', () => {
  it('counts fewer values where neighbours hang together', () => {
    const draws = stream(4, 0, 0)
    let wander = 0
    const correlated = Array.from({ length: 20_000 }, () => (wander = 0.6 * wander + 0.8 * draws.normal()))
    // Variance of the mean of a first-order autoregression: (1 + ρ) / (1 − ρ) = 4 times that of white noise of variance 1.
    expect(estimateOfMean(correlated)!.u).toBeCloseTo(2 / Math.sqrt(20_000), 3)
    expect(estimateOfMean([1])).toBeNull()
  })
})

describe('holm', () => {
  // Four hypotheses with p = 0.01, 0.04, 0.03 and 0.005: the first and the last are rejected at 0.05 (a worked example of
  // handbooks, from memory); adjusted by the definition of Holm (1979).
  it('adjusts step by step from the smallest', () => {
    expect(holm([0.01, 0.04, 0.03, 0.005])).toEqual(
      [0.03, 0.06, 0.06, 0.02].map((p) => expect.closeTo(p, 12)),
    )
    expect(holm([0.9, 0.8])).toEqual([1, 1])
  })
})

describe('cheapestAssignment', () => {
  function cheapest(cost: number[][], row = 0, free = cost.map((_, j) => j)): number {
    if (row === cost.length) return 0
    return Math.min(
      ...free.map(
        (j) =>
          cost[row][j] +
          cheapest(
            cost,
            row + 1,
            free.filter((k) => k !== j),
          ),
      ),
    )
  }

  it('costs what the best of all permutations costs', () => {
    const draws = stream(5, 0, 0)
    for (let n = 1; n <= 6; n++)
      for (let trial = 0; trial < 10; trial++) {
        const cost = Array.from({ length: n }, () =>
          Array.from({ length: n }, () => Math.floor(20 * draws.uniform())),
        )
        const columns = cheapestAssignment(cost)
        expect([...columns].sort()).toEqual(cost.map((_, j) => j))
        expect(columns.reduce((sum, j, i) => sum + cost[i][j], 0)).toBe(cheapest(cost))
      }
  })
})

/** A device that senses and sends, in `wakes` wakes that differ a little. */
function device(
  take: number,
  change: Partial<MadeUpPlan> = {},
  extraState = false,
): ReturnType<typeof analyse> {
  const draws = stream(11, take, 0)
  const vary = (duration_s: number) => duration_s * (1 + 0.05 * (2 * draws.uniform() - 1))
  const visits = Array.from({ length: 30 }, () => [
    { state: 0, duration_s: vary(1.2) },
    { state: 1, duration_s: vary(0.1) },
    ...(extraState ? [{ state: 3, duration_s: vary(0.06) }] : []),
    { state: 2, duration_s: vary(0.05) },
  ]).flat()
  const plan: MadeUpPlan = {
    interval_s: 0.001,
    levels_A: [0.0007, 0.02, 0.12, 0.3],
    visits: [...visits, { state: 0, duration_s: 1.2 }],
    wakes: [],
    noise: [0.05, 0.05, 0.05, 0.05],
    correlation: 0.3,
    drift: { rise: 0, wave: 0 },
    hum: null,
    ripple: null,
    bursts: null,
    digit_A: null,
    ...change,
  }
  return analyse(samplesOf(makeUp(plan, 12, take).current_A, plan.interval_s))
}

describe('differenceOf', () => {
  it('names the state that draws more, by how much, and nothing else', () => {
    const difference = differenceOf(device(1), device(2, { levels_A: [0.0007, 0.02, 0.126, 0.3] }))
    expect(difference.states.map(({ kind }) => kind)).toEqual(['same', 'same', 'shifted'])
    const current = difference.states[2].current!
    expect(current.low).toBeLessThan(0.006)
    expect(current.high).toBeGreaterThan(0.006)
    expect(current.significant).toBe(true)
  })

  it('names a state that appeared, and one that vanished', () => {
    const more = differenceOf(device(1), device(2, {}, true))
    expect(more.states.at(-1)).toMatchObject({
      kind: 'appeared',
      before: null,
      after: 3,
      presence: { significant: true },
    })
    const fewer = differenceOf(device(2, {}, true), device(1))
    expect(fewer.states.filter(({ kind }) => kind === 'vanished')).toHaveLength(1)
    expect(more.charge!.significant).toBe(true)
    expect(more.charge!.difference).toBeCloseTo(0.3 * 0.06, 3)
  })

  it('calls two takes of one device different no more often than it says', () => {
    const pairs = Array.from({ length: 40 }, (_, k) => differenceOf(device(100 + 2 * k), device(101 + 2 * k)))
    const alarms = pairs.filter(({ states, charge, work, period }) =>
      [charge, work, period, ...states.flatMap((state) => [state.current, state.dwell, state.presence])].some(
        (tested) => tested?.significant,
      ),
    )
    // At 5 %, more than 6 of 40 come about once in a hundred times.
    expect(alarms.length).toBeLessThanOrEqual(6)
  })

  it('holds for made-up devices with all their troubles', () => {
    const takes = [0, 1].map((take) => {
      const plan = madeUpPlan(2, 3, take)
      return analyse(samplesOf(makeUp(plan, 100 + take, 3).current_A, plan.interval_s))
    })
    const { states, questions } = differenceOf(takes[0], takes[1])
    expect(states.every(({ kind }) => kind === 'same')).toBe(true)
    expect(questions).toBe(2 * states.length + 3)
  })
})
