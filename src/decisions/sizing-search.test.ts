import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import type { Asked, Picked, Survived } from './common-runs.ts'
import { Evidence, runsForCleanSweep, survivalOf } from './sizing-evidence.ts'
import { climbToPassing, firstPassing } from './sizing-search.ts'
import type { Study } from './study.ts'

/** Plays designs whose survival is known: place k on a line survives each winter with `shares[k]`. */
function drive<Result>(study: Study<Result>, shares: readonly number[], seed = 1) {
  let played = 0
  const play = ({ picks, from, to }: Asked): Survived[] =>
    picks.map(({ pack }) => {
      let survived = 0
      for (let run = from; run < to; run++) survived += stream(seed, run, 1).uniform() < shares[pack] ? 1 : 0
      played += to - from
      return { runs: to - from, winters: to - from, survived }
    })
  let step = study.next([])
  while (!step.done) step = study.next(step.value.map(play))
  return { result: step.value, played }
}

const line = (length: number) =>
  Array.from({ length }, (_, pack): Picked => ({ pack, panel: 0, interval: 0 }))

describe('a search along a line', () => {
  const shares = [0, 0.1, 0.4, 0.7, 0.9, 0.96, 0.99, 0.999, 1, 1, 1, 1]

  it('finds a design that is good enough, from the middle and step by step alike', () => {
    const found = (from?: number) => {
      const evidence = new Evidence({ wanted: 0.95, mostRuns: 300 })
      const picks = line(shares.length)
      const search =
        from === undefined ? firstPassing(picks, evidence) : climbToPassing(picks, from, evidence)
      return drive(search, shares).result
    }
    expect(found()).toBe(found(0))
    expect(shares[found() ?? 0]).toBeGreaterThan(0.95)
  })

  it('finds nothing where nothing passes', () => {
    const evidence = new Evidence({ wanted: 0.95, mostRuns: 300 })
    expect(drive(firstPassing(line(4), evidence), shares).result).toBeNull()
  })

  it('passes a design that is not good enough in at most one study of twenty', () => {
    let passed = 0
    const studies = 300
    for (let seed = 1; seed <= studies; seed++) {
      const evidence = new Evidence({ wanted: 0.95, mostRuns: 300 })
      const { result } = drive(evidence.judge(line(1)[0]), [0.95], seed)
      if (result === 'passes') passed++
    }
    // 5 % and three standard errors of a count of 300.
    expect(passed / studies).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / studies))
    expect(passed).toBeGreaterThan(0)
  })

  it('spends few runs on hopeless designs and most where they decide', () => {
    const cost = (share: number) => {
      const evidence = new Evidence({ wanted: 0.95, mostRuns: 300 })
      return drive(evidence.judge(line(1)[0]), [share]).played
    }
    expect(cost(0.2)).toBeLessThanOrEqual(10)
    expect(cost(1)).toBe(runsForCleanSweep(0.95))
    expect(cost(0.97)).toBeGreaterThan(cost(0.8))
  })
})

describe('what runs say', () => {
  it('counts the winters of a run as one trial', () => {
    // Wilson for 74 of 74: n / (n + z²), z = 1.96.
    expect(survivalOf({ runs: 74, winters: 370, survived: 370 }).low).toBeCloseTo(74 / (74 + 3.8415), 5)
    expect(survivalOf({ runs: 74, winters: 370, survived: 370 }).low).toBeGreaterThan(0.95)
    expect(survivalOf({ runs: 73, winters: 365, survived: 365 }).low).toBeLessThan(0.9501)
  })

  it('refuses a standard that no number of allowed runs could prove', () => {
    expect(() => new Evidence({ wanted: 0.99, mostRuns: 100 })).toThrow(RangeError)
    expect(() => new Evidence({ wanted: 1, mostRuns: 100 })).toThrow(RangeError)
  })
})
