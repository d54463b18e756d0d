/** Matching and measuring on made-up recordings whose truth is known. */
import { describe, expect, it } from 'vitest'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import type { Step } from '../wake/wake.ts'
import { type MadeUpPlan, type MadeUpVisit, makeUp } from './made-up.ts'
import { madeUpPlan } from './made-up-plan.ts'
import { matchSteps, type Role } from './match-steps.ts'
import { measureSteps } from './match-steps-measure.ts'
import { peakOf } from './match-steps-peak.ts'
import { analyse } from './states.ts'
import { samplesOf } from './states-samples.ts'

const step = (name: string, duration_s: number, current_A: number, fields: Partial<Step> = {}): Step => ({
  name,
  duration_s: exactly(duration_s),
  current_A: exactly(current_A),
  peak: null,
  chance: exactly(1),
  every: 1,
  retries: null,
  reports: 0,
  rail: null,
  note: null,
  ...fields,
})

const INTERVAL_s = 1e-3

/** Twelve wakes of these visits, ten times as long asleep; levels from rest up. */
function recorded(levels_A: readonly number[], works: readonly (readonly MadeUpVisit[])[], noise = 0.01) {
  const visits: MadeUpVisit[] = [{ state: 0, duration_s: 2 }]
  const wakes: { visit: number; odd: null }[] = []
  for (let k = 0; k < 12; k++) {
    wakes.push({ visit: visits.length, odd: null })
    visits.push(...works[k % works.length], { state: 0, duration_s: 4 })
  }
  const plan: MadeUpPlan = {
    interval_s: INTERVAL_s,
    levels_A,
    visits,
    wakes,
    noise: levels_A.map(() => noise),
    correlation: 0,
    drift: { rise: 0, wave: 0 },
    hum: null,
    ripple: null,
    bursts: null,
    digit_A: null,
  }
  return samplesOf(makeUp(plan, 7, 1).current_A, INTERVAL_s)
}

const visit = (state: number, duration_s: number): MadeUpVisit => ({ state, duration_s })
const isStep = (k: number): Role => ({ kind: 'step', step: k })

describe('matchSteps', () => {
  it('takes states in order, also where the budget is half as much again off', () => {
    const analysis = analyse(recorded([1e-5, 5e-3, 40e-3], [[visit(1, 0.3), visit(2, 0.2)]]))
    const steps = [step('sense', 0.3, 7e-3), step('send', 0.3, 30e-3)]
    const { roles, doubts } = matchSteps(analysis, { steps, drains: [] })
    expect(roles).toEqual([[{ kind: 'rest' }], [isStep(0)], [isStep(1)]])
    expect(doubts).toEqual([])
  })

  it('finds a step of every second wake, and misses one that did not come', () => {
    const sense = visit(1, 0.3)
    const analysis = analyse(recorded([1e-5, 5e-3, 40e-3], [[sense], [sense, visit(2, 0.2)]]))
    const steps = [
      step('sense', 0.3, 5e-3),
      step('calibrate', 1, 9e-3, { chance: exactly(0.02) }),
      step('send', 0.2, 40e-3, { every: 2 }),
    ]
    expect(matchSteps(analysis, { steps, drains: [] }).roles.slice(1)).toEqual([[isStep(0)], [isStep(2)]])
  })

  it('lets two levels be one step, and one level two steps where somebody says so', () => {
    const work = [visit(1, 0.2), visit(3, 0.3), visit(2, 0.4), visit(3, 0.3)]
    const analysis = analyse(recorded([1e-5, 5e-3, 20e-3, 80e-3], [work]))
    const join = step('join', 1, (0.6 * 80e-3 + 0.4 * 20e-3) / 1)
    const one = matchSteps(analysis, { steps: [step('sense', 0.2, 5e-3), join], drains: [] })
    expect(one.roles.slice(1)).toEqual([[isStep(0)], [isStep(1)], [isStep(1)]])
    const steps = [step('sense', 0.2, 5e-3), step('join', 0.7, 46e-3), step('send', 0.3, 80e-3)]
    const two = matchSteps(analysis, { steps, drains: [] })
    expect(two.roles[3]).toEqual([isStep(1), isStep(2)])
    expect(two.doubts).toEqual([])
  })

  it('doubts between two steps that are alike, until it is told', () => {
    const analysis = analyse(recorded([1e-5, 20e-3], [[visit(1, 0.3)]]))
    const steps = [step('join', 0.3, 21e-3, { every: 6 }), step('send', 0.3, 19e-3, { every: 6 })]
    const [doubt] = matchSteps(analysis, { steps, drains: [] }).doubts
    expect(doubt).toMatchObject({ kind: 'ambiguous', state: 1 })
    expect([...doubt.steps].sort()).toEqual([0, 1])
    const told = matchSteps(analysis, { steps, drains: [] }, new Map([[1, [isStep(1)]]]))
    expect(told.roles[1]).toEqual([isStep(1)])
    expect(told.doubts).toEqual([])
  })

  it('doubts a step of several levels where another step is missing', () => {
    const analysis = analyse(recorded([1e-5, 5e-3, 40e-3], [[visit(1, 0.3), visit(2, 0.4)]]))
    const steps = [step('sense', 0.3, 5e-6), step('send', 0.5, 32e-3)]
    const { doubts } = matchSteps(analysis, { steps, drains: [] })
    expect(doubts.map(({ state, steps }) => [state, ...steps.toSorted()])).toEqual([
      [1, 0, 1],
      [2, 0, 1],
    ])
  })

  it('leaves a state that is like no step', () => {
    const work = [visit(1, 0.3), visit(2, 0.2), visit(3, 0.5)]
    const analysis = analyse(recorded([1e-5, 2e-3, 40e-3, 9e-3], [work]))
    const steps = [step('sense', 0.3, 2e-3), step('send', 0.2, 40e-3)]
    const { doubts } = matchSteps(analysis, { steps, drains: [] })
    expect(doubts.map(({ kind }) => kind)).toEqual(['left'])
    expect(analysis.states[doubts[0].state].mean_A).toBeCloseTo(9e-3, 3)
  })

  it('needs to be told what a recording of one level is', () => {
    const { doubts } = matchSteps(analyse(recorded([1e-5], [[]])), {
      steps: [step('a', 1, 1e-5)],
      drains: [],
    })
    expect(doubts).toEqual([{ kind: 'ambiguous', state: 0, steps: [0] }])
  })
})

describe('measureSteps', () => {
  const currentsOf = (analysis: ReturnType<typeof analyse>) =>
    analysis.states.map(({ mean_A, u_A }): Uncertain => ({ kind: 'normal', value: mean_A, u: u_A }))

  it('finds durations, currents, rest and the whole cycle of a plain device', () => {
    const samples = recorded([1e-5, 5e-3, 40e-3], [[visit(1, 0.3), visit(2, 0.2)]])
    const analysis = analyse(samples)
    const expected = { steps: [step('sense', 0.3, 5e-3), step('send', 0.2, 40e-3)], drains: [] }
    const { roles } = matchSteps(analysis, expected)
    const measured = measureSteps(analysis, currentsOf(analysis), roles, expected, INTERVAL_s)
    const [sense, send] = measured.steps
    for (const [found, duration_s, current_A] of [
      [sense, 0.3, 5e-3],
      [send, 0.2, 40e-3],
    ] as const) {
      expect(found?.duration_s?.value).toBeCloseTo(duration_s, 3)
      expect(found?.charge_C?.value).toBeCloseTo(duration_s * current_A, 5)
      expect(found?.current).toMatchObject({ value: expect.closeTo(current_A, 4) })
      expect(found).toMatchObject({ seen: 12, wakes: 12 })
    }
    expect(measured.rest).toMatchObject({ value: expect.closeTo(1e-5, 7) })
    expect(measured.cycle?.period_s.value).toBeCloseTo(4.5, 3)
    expect(measured.cycle?.charge_C.value).toBeCloseTo(0.3 * 5e-3 + 0.2 * 40e-3 + 4 * 1e-5, 5)
    expect(measured.others).toEqual([])
  })

  it('counts a rest that read zero with the middle of what it may be, in the whole cycle too', () => {
    const samples = recorded([0, 40e-3], [[visit(1, 0.2)]])
    const analysis = analyse(samples)
    const expected = { steps: [step('send', 0.2, 40e-3)], drains: [] }
    const { roles } = matchSteps(analysis, expected)
    const currents: Uncertain[] = [{ kind: 'below', limit: 1e-3 }, exactly(analysis.states[1].mean_A)]
    const { rest, cycle } = measureSteps(analysis, currents, roles, expected, INTERVAL_s)
    expect(rest).toEqual({ kind: 'below', limit: 1e-3 })
    expect(cycle?.charge_C.value).toBeCloseTo(0.2 * 40e-3 + 0.5e-3 * 4, 5)
    expect(cycle?.charge_C.u).toBeCloseTo((1e-3 / Math.sqrt(12)) * 4, 5)
  })

  // The truth is the generator's.
  it('covers the true current of rest in made-up cases with every fault, 8 of 8 within 5 u or 1 %', () => {
    let judged = 0
    for (let number = 0; number < 8; number++) {
      const plan = madeUpPlan(3, number)
      const { current_A, truth } = makeUp(plan, 3, number)
      const analysis = analyse(samplesOf(current_A, plan.interval_s))
      const expected = { steps: [], drains: [] }
      const { roles } = matchSteps(analysis, expected)
      const { rest } = measureSteps(analysis, currentsOf(analysis), roles, expected, plan.interval_s)
      const true_A = truth.means_A[0]
      if (rest?.kind !== 'normal' || true_A === null) throw new Error(`case ${number} has no rest`)
      expect(Math.abs(rest.value - true_A)).toBeLessThan(Math.max(5 * rest.u, 0.01 * true_A))
      judged++
    }
    expect(judged).toBe(8)
  })
})

describe('peakOf', () => {
  it('finds a peak of a few samples and its width, and none at the edges of a step', () => {
    const samples = recorded([1e-5, 5e-3, 40e-3], [[visit(2, 0.2004), visit(1, 0.3003)]])
    const current_A = Float32Array.from(samples.read(0, samples.count))
    const plain = analyse(samplesOf(current_A, INTERVAL_s))
    for (const { from } of plain.cycles.list) {
      const start = plain.segments.starts[from]
      current_A.fill(0.12, start + 50, start + 54)
    }
    const peaked = samplesOf(current_A, INTERVAL_s)
    const analysis = analyse(peaked)
    const expected = { steps: [step('send', 0.2, 41.6e-3), step('sense', 0.3, 5e-3)], drains: [] }
    const { roles } = matchSteps(analysis, expected)
    const currents = analysis.states.map(({ mean_A }) => exactly(mean_A))
    const { steps } = measureSteps(analysis, currents, roles, expected, INTERVAL_s)
    const [send, sense] = steps
    if (send === null || sense === null) throw new Error('both steps are there')
    const peak = peakOf(peaked, analysis, send)
    expect(peak?.current_A.value).toBeCloseTo(0.12, 6)
    expect(peak?.duration_s.value).toBeCloseTo(4e-3, 9)
    expect(peak).toMatchObject({ wakes: 12, coarse: false })
    expect(peakOf(peaked, analysis, sense)).toBeNull()
  })
})
