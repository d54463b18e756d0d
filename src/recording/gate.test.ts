import { describe, expect, it } from 'vitest'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import type { Step, Wake } from '../wake/wake.ts'
import { type GateOptions, gateOf } from './gate.ts'
import { beyondRanges } from './match-steps-beyond.ts'
import type { Measured, MeasuredStep } from './match-steps-measure.ts'

const normal = (value: number, u: number): Uncertain => ({ kind: 'normal', value, u })
const estimate = (value: number, u: number) => ({ value, u, dof: Infinity, ends: null })

const send: Step = {
  name: 'send',
  duration_s: exactly(2),
  current_A: normal(0.03, 0.001),
  peak: null,
  chance: exactly(1),
  every: 1,
  retries: null,
  reports: 1,
  rail: null,
  note: null,
}

const wake: Wake = {
  steps: [send],
  boot: [],
  cadence: { schedule: { kind: 'rest', rest_s: exactly(600) }, events: null, thrift: [] },
  rest_A: normal(20e-6, 1e-6),
  standing: [],
  resume: 'continue',
  keeps: [],
}

const found = (fields: Partial<MeasuredStep> = {}): MeasuredStep => ({
  states: [1],
  seen: 10,
  wakes: 10,
  current: normal(0.03, 1e-5),
  duration_s: estimate(2, 1e-3),
  charge_C: estimate(0.06, 1e-4),
  occurrences: [],
  shortfall: null,
  ...fields,
})

const measured = (fields: Partial<Measured> = {}): Measured => ({
  steps: [found()],
  rest: normal(20e-6, 1e-7),
  drains: [],
  cycle: { count: 10, charge_C: estimate(0.06 + 20e-6 * 8, 1e-4), period_s: estimate(10, 1e-3) },
  others: [],
  shortfalls: { rest: null, cycle: null },
  ...fields,
})

const options: GateOptions = { slack: 0, always: [], period_s: null }
const verdicts = (of: Measured, design = wake, with_ = options) =>
  gateOf(of, design, with_).items.map(({ kind, verdict }) => [kind, verdict])

describe('gateOf', () => {
  it('cannot tell of a pass where the range ended or time is missing, and lets a fail stand', () => {
    const clipped = {
      steps: [found({ shortfall: 'clipped' })],
      shortfalls: { rest: null, cycle: 'clipped' },
    } as const
    expect(verdicts(measured(clipped))).toEqual([
      ['step', 'cannot tell'],
      ['rest', 'pass'],
      ['cycle', 'cannot tell'],
    ])
    const [step] = gateOf(measured(clipped), wake, options).items
    expect(step.why).toContain('the range ended')
    const costly = found({ shortfall: 'clipped', charge_C: { ...estimate(0.09, 1e-4), ends: null } })
    expect(verdicts(measured({ steps: [costly] }))[0]).toEqual(['step', 'fail'])
    const unseen = found({ shortfall: 'incomplete', charge_C: null, duration_s: null, seen: 0, wakes: 0 })
    const lost = measured({ steps: [unseen], cycle: null, shortfalls: { rest: null, cycle: 'incomplete' } })
    const [sent, , cycle] = gateOf(lost, wake, options).items
    expect(sent).toMatchObject({ verdict: 'cannot tell', why: expect.stringContaining('not measured') })
    expect(cycle).toMatchObject({ verdict: 'cannot tell', why: expect.stringContaining('all time') })
  })

  it('passes what is within the upper end of its tolerance', () => {
    expect(gateOf(measured(), wake, options).verdict).toBe('pass')
    // 0.03 A ± 0.002 A for 2 s allow 64 mC, wherever within it the measurement lies.
    expect(verdicts(measured({ steps: [found({ charge_C: estimate(0.0638, 1e-4) })] }))[0]).toEqual([
      'step',
      'pass',
    ])
  })

  it('fails beyond it, cannot tell within the guard band, and says where an excess comes from', () => {
    const slow = found({ duration_s: estimate(2.3, 1e-3), charge_C: estimate(0.069, 1e-4) })
    const { items, verdict } = gateOf(measured({ steps: [slow] }), wake, options)
    expect(verdict).toBe('fail')
    expect(items[0].parts.map(({ quantity, verdict }) => [quantity, verdict])).toEqual([
      ['current', 'pass'],
      ['duration', 'fail'],
    ])
    const edge = found({ charge_C: estimate(0.06405, 1e-4) })
    expect(verdicts(measured({ steps: [edge] }))[0]).toEqual(['step', 'cannot tell'])
    expect(verdicts(measured({ steps: [edge] }), wake, { ...options, slack: 0.02 })[0]).toEqual([
      'step',
      'pass',
    ])
  })

  it('takes a rest that reads zero for a pass only where half a digit is within the budget, and never for a fail', () => {
    expect(verdicts(measured({ rest: { kind: 'below', limit: 0.005 } }))[1]).toEqual(['rest', 'cannot tell'])
    expect(verdicts(measured({ rest: { kind: 'below', limit: 30e-6 } }))[1]).toEqual(['rest', 'cannot tell'])
    expect(verdicts(measured({ rest: { kind: 'below', limit: 21e-6 } }))[1]).toEqual(['rest', 'pass'])
  })

  it('lets what flows always go to the end of its range, and compares what it tells', () => {
    const always = [{ kind: 'uniform', low: 0, high: 2e-6 } as const]
    const exact = { ...wake, rest_A: exactly(20e-6) }
    const [, rest] = gateOf(measured({ rest: exactly(22e-6) }), exact, { ...options, always }).items
    expect(rest.decided?.limit).toBeCloseTo(22e-6, 12)
    expect(rest.verdict).toBe('pass')
  })

  it('counts what flows always to every budget', () => {
    const with_ = { ...options, always: [exactly(1e-6)] }
    const rest = normal(22.9e-6, 1e-8)
    expect(verdicts(measured({ rest }))[1]).toEqual(['rest', 'fail'])
    expect(verdicts(measured({ rest }), wake, with_)[1]).toEqual(['rest', 'pass'])
  })

  it('fails a state that no step is like, unless it takes next to nothing', () => {
    const other = { state: 2, charge_C: 0.02, share: 0.25 }
    expect(verdicts(measured({ others: [other] }))).toContainEqual(['state', 'fail'])
    expect(verdicts(measured({ others: [{ ...other, share: 0.005 }] })).flat()).not.toContain('state')
  })

  it('fails a step that comes more often than it should, and lets a rare one be missing', () => {
    const rare = { ...wake, steps: [{ ...send, every: 6 }] }
    expect(verdicts(measured(), rare)[0]).toEqual(['step', 'fail'])
    expect(verdicts(measured({ steps: [found({ seen: 2 })] }), rare)[0]).toEqual(['step', 'pass'])
    expect(verdicts(measured({ steps: [null] }), rare)[0]).toEqual(['step', 'pass'])
    expect(verdicts(measured({ steps: [null] }))[0]).toEqual(['step', 'cannot tell'])
  })

  it('lets nothing pass that is beyond every range of the instrument, and says so of a fail', () => {
    const roles = [[{ kind: 'rest' }], [{ kind: 'step', step: 0 }]] as const
    const of = (charge_C: number) => {
      const own = measured({ steps: [found({ charge_C: estimate(charge_C, 1e-4) })] })
      return gateOf(beyondRanges(own, roles, [false, true]), wake, options).items
    }
    const why = expect.stringContaining('beyond every range')
    expect(of(0.06)).toMatchObject([
      { kind: 'step', verdict: 'cannot tell', why },
      { kind: 'rest', verdict: 'pass', why: null },
      { kind: 'cycle', verdict: 'cannot tell', why },
    ])
    expect(of(0.6)[0]).toMatchObject({ verdict: 'fail', why })
    expect(beyondRanges(measured(), roles, [false, false])).toEqual(measured())
  })

  it('judges the period only when asked: wakes that come too often fail', () => {
    expect(verdicts(measured()).flat()).not.toContain('period')
    expect(verdicts(measured(), wake, { ...options, period_s: 602 })).toContainEqual(['period', 'fail'])
    expect(verdicts(measured(), wake, { ...options, period_s: 10.05 })).toContainEqual(['period', 'pass'])
  })

  it('cannot tell what the recording does not hold', () => {
    expect(verdicts(measured({ rest: null, cycle: null })).slice(1)).toEqual([
      ['rest', 'cannot tell'],
      ['cycle', 'cannot tell'],
    ])
  })
})
