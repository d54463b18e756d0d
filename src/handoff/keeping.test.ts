import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { keepingOf } from './keeping.ts'

const counts = (wake: Partial<Outpost<number>['wake']>) =>
  keepingOf(exact({ ...sunlit, wake: { ...sunlit.wake, ...wake } }).wake, { rows: [] })
    .filter(({ what }) => what.includes('count of wakes'))
    .map(({ why, path }) => ({ why, path }))

describe('the count of wakes', () => {
  const boot = [step({ name: 'self-test', every: 24 })]
  const steps = [step({ name: 'sense' }), step({ name: 'send', every: 6 })]

  it('is to be kept for steps that have their turn, those of a restart too', () => {
    expect(counts({ resume: 'restart', boot, steps })).toEqual([
      {
        why: 'By it steps have their turn: "self-test" in one wake of 24, "send" in one wake of 6.',
        path: 'wake.steps',
      },
    ])
    expect(counts({ resume: 'restart', boot, steps: [steps[0]] })).toEqual([
      { why: 'By it steps have their turn: "self-test" in one wake of 24.', path: 'wake.boot' },
    ])
  })

  it('needs no keeping for boot steps that are never done, nor where each wake is alike', () => {
    expect(counts({ resume: 'continue', boot, steps: [steps[0]] })).toEqual([])
    expect(counts({ resume: 'restart', boot: [step({ name: 'boot' })], steps: [steps[0]] })).toEqual([])
  })
})
