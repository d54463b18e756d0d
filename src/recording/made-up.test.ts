import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { compensatedSum } from '../numeric/sum.ts'
import { makeUp } from './made-up.ts'
import { ACCURACY_CASES, accuracyRow } from './made-up-accuracy.ts'
import { madeUpPlan } from './made-up-plan.ts'

const plans = Array.from({ length: ACCURACY_CASES }, (_, number) => madeUpPlan(1, number))

describe('made-up recordings', () => {
  it('cover what is claimed of them', () => {
    const counts = new Set(plans.map(({ levels_A }) => levels_A.length))
    expect([...counts].sort()).toEqual([3, 4, 5, 6, 7, 8])
    const levels = plans.flatMap(({ levels_A }) => levels_A)
    expect(Math.min(...levels)).toBeGreaterThanOrEqual(20e-6)
    expect(Math.min(...levels)).toBeLessThan(25e-6)
    expect(Math.max(...levels)).toBeLessThanOrEqual(0.5)
    expect(Math.max(...levels)).toBeGreaterThan(0.45)
    const noise = plans.flatMap((plan) => plan.noise)
    expect(Math.max(...noise)).toBeGreaterThan(0.15)
    expect(Math.max(...noise)).toBeLessThanOrEqual(0.2)
    for (const field of ['hum', 'ripple', 'bursts', 'digit_A'] as const)
      expect(plans.filter((plan) => plan[field] !== null).length).toBeGreaterThan(10)
    expect(plans.filter(({ drift }) => drift.rise !== 0).length).toBeGreaterThan(50)
    const odd = new Set(plans.flatMap(({ wakes }) => wakes.map((wake) => wake.odd)))
    expect(odd.size).toBe(7)
  })

  it('are the same for the same seed, and another take of the same device for another take', () => {
    expect(madeUpPlan(1, 7)).toEqual(plans[7])
    const again = madeUpPlan(1, 7, 1)
    expect(again.levels_A).toEqual(plans[7].levels_A)
    expect(again.noise).toEqual(plans[7].noise)
    expect(again.visits).not.toEqual(plans[7].visits)
    const one = makeUp(plans[7], 1, 7).current_A.subarray(0, 1000)
    expect(makeUp(plans[7], 1, 7).current_A.subarray(0, 1000)).toEqual(one)
    expect(makeUp(plans[7], 2, 7).current_A.subarray(0, 1000)).not.toEqual(one)
  })

  it('hold the truth they claim, where nothing blurs it', () => {
    const quiet = {
      correlation: 0,
      drift: { rise: 0, wave: 0 },
      hum: null,
      ripple: null,
      bursts: null,
      digit_A: null,
    }
    const plan = { ...plans[3], ...quiet, noise: plans[3].levels_A.map(() => 0) }
    const { current_A, interval_s, truth } = makeUp(plan, 1, 3)
    truth.starts.forEach((start, k) => {
      const end = truth.starts[k + 1] ?? current_A.length
      for (let i = k === 0 ? start : start + 1; i < end; i++)
        expect(current_A[i]).toBe(Math.fround(plan.levels_A[truth.states[k]]))
    })
    expect(Math.abs((compensatedSum(current_A) * interval_s) / truth.charge_C - 1)).toBeLessThan(1e-7)
    const flowed = plan.visits.reduce(
      (sum, { state, duration_s }) => sum + plan.levels_A[state] * duration_s,
      0,
    )
    expect(Math.abs(truth.charge_C / flowed - 1)).toBeLessThan(1e-5)
    truth.means_A.forEach((mean, k) => {
      expect(mean).toBeCloseTo(plan.levels_A[k], 12)
    })
  })
})

describe('the table of accuracy', () => {
  const text = readFileSync(new URL('../../docs/accuracy.md', import.meta.url), 'utf8')

  // The last one has bursts, hum and digits.
  it.each([1, 12, 40, 57, 103, 176, 191])('has case %i as it comes out', (number) => {
    expect(text).toContain(`\n${accuracyRow(number).line}\n`)
  })

  it('has every case, and sums that are those of its lines', () => {
    const lines = [...text.matchAll(/^\| \d+ \|.*$/gm)].map(([line]) =>
      line.split('|').map((cell) => cell.trim()),
    )
    expect(lines.map((cells) => Number(cells[1]))).toEqual(plans.map((_, number) => number))
    const summed = (column: number) =>
      lines.reduce(
        ([good, all], cells) => {
          const [a, b] = cells[column].split(' of ').map(Number)
          return [good + a, all + b]
        },
        [0, 0],
      )
    expect(text).toContain(`(k = 2) | every one | ${summed(6).join(' of ')} (`)
    expect(text).toContain(`within 2 samples | 98 % | ${summed(7).join(' of ')} (`)
    const exact = lines.filter((cells) => /^(\d+) of \1$/.test(cells[9])).length
    expect(text).toContain(`exact count of wakes | 98 % | ${exact} of ${ACCURACY_CASES} (`)
    // What was asked of changes and of wakes.
    const [found, changes] = summed(7)
    expect(found / changes).toBeGreaterThanOrEqual(0.98)
    expect(exact / ACCURACY_CASES).toBeGreaterThanOrEqual(0.98)
  })
})
