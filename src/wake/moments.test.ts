import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { aStep, aWake, EVERYTHING } from '../../test/example-wakes.ts'
import { stream } from '../numeric/random.ts'
import { dayShares } from './day.ts'
import { durationLaw } from './duration-law.ts'
import { momentsOf } from './moments.ts'
import { sampleWake } from './sample-wake.ts'
import type { Step, Wake } from './wake.ts'

interface Leaf {
  p: number
  q: number
  t: number
  reports: number
}

/** Every leaf of the tree of what can happen, walked try by try; shares nothing with the module under test. */
function leavesOf(wake: Wake<number>, index: number): Leaf[] {
  const steps = wake.resume === 'restart' ? wake.boot.concat(wake.steps) : wake.steps
  const leaves: Leaf[] = []
  const walk = (k: number, leaf: Leaf) => {
    if (leaf.p === 0) return
    if (k === steps.length) {
      leaves.push(leaf)
      return
    }
    const step = steps[k]
    if (index % step.every !== 0) return walk(k + 1, leaf)
    walk(k + 1, { ...leaf, p: leaf.p * (1 - step.chance) })
    tryStep(step, k, 0, { ...leaf, p: leaf.p * step.chance })
  }
  const tryStep = (step: Step<number>, k: number, failed: number, leaf: Leaf): void => {
    const r = step.retries
    const p = r?.probability ?? 0
    const extra = step.peak === null ? 0 : (step.peak.current_A - step.current_A) * step.peak.duration_s
    walk(k + 1, {
      p: leaf.p * (1 - p),
      q: leaf.q + step.current_A * step.duration_s + extra,
      t: leaf.t + step.duration_s,
      reports: leaf.reports + step.reports,
    })
    if (r === null || p === 0) return
    const after = {
      ...leaf,
      p: leaf.p * p,
      q: leaf.q + step.current_A * r.failedDuration_s,
      t: leaf.t + r.failedDuration_s,
    }
    if (failed === r.times) leaves.push(after)
    else
      tryStep(step, k, failed + 1, {
        ...after,
        q: after.q + wake.rest_A * r.backoff_s,
        t: after.t + r.backoff_s,
      })
  }
  walk(0, { p: 1, q: 0, t: 0, reports: 0 })
  return leaves
}

function cycleOf(wake: Wake<number>, length: number): Leaf[] {
  return Array.from({ length }, (_, i) =>
    leavesOf(wake, i + 1).map((leaf) => ({ ...leaf, p: leaf.p / length })),
  ).flat()
}

function summed(leaves: Leaf[]) {
  const mean = (of: (leaf: Leaf) => number) => leaves.reduce((sum, leaf) => sum + leaf.p * of(leaf), 0)
  const q = mean((leaf) => leaf.q)
  const t = mean((leaf) => leaf.t)
  return {
    charge_C: q,
    duration_s: t,
    chargeVariance_C2: mean((leaf) => (leaf.q - q) ** 2),
    durationVariance_s2: mean((leaf) => (leaf.t - t) ** 2),
    covariance_C_s: mean((leaf) => (leaf.q - q) * (leaf.t - t)),
  }
}

function expectAlike(actual: object, expected: object): void {
  for (const [key, value] of Object.entries(expected)) {
    const got = (actual as Record<string, number>)[key]
    expect(Math.abs(got - value), key).toBeLessThanOrEqual(1e-12 * (1 + Math.abs(value)))
  }
}

const probability = fc.double({ min: 0, max: 1, noNaN: true })
const size = fc.double({ min: 0.001, max: 5, noNaN: true })
const anyStep = fc.record({
  duration_s: size,
  current_A: size,
  chance: probability,
  every: fc.integer({ min: 1, max: 4 }),
  reports: fc.integer({ min: 0, max: 3 }),
  retries: fc.option(
    fc.record({
      probability,
      times: fc.integer({ min: 0, max: 3 }),
      backoff_s: size,
      failedDuration_s: size,
    }),
  ),
})

describe('moments of a wake', () => {
  it('equal the sums over every leaf of the tree of outcomes', () => {
    const leaves = cycleOf(EVERYTHING, 6)
    const moments = momentsOf(EVERYTHING)
    expectAlike(moments.total, summed(leaves))
    expect(moments.reports).toBeCloseTo(
      leaves.reduce((sum, leaf) => sum + leaf.p * leaf.reports, 0),
      12,
    )
    const inEach = [1, 2, 3, 4, 5, 6].map((index) => summed(leavesOf(EVERYTHING, index)).chargeVariance_C2)
    expect(moments.within.chargeVariance_C2).toBeCloseTo(inEach.reduce((a, b) => a + b) / 6, 14)
    expect(moments.total.chargeVariance_C2).toBeGreaterThan(moments.within.chargeVariance_C2)
  })

  it('equal them for any steps', () => {
    fc.assert(
      fc.property(fc.array(anyStep, { maxLength: 4 }), size, (changes, rest_A) => {
        const wake = aWake({ rest_A, steps: changes.map((change) => aStep(change)) })
        const leaves = cycleOf(wake, 12)
        expectAlike(momentsOf(wake).total, summed(leaves))
        expectAlike(
          { reports: momentsOf(wake).reports },
          { reports: leaves.reduce((sum, leaf) => sum + leaf.p * leaf.reports, 0) },
        )
      }),
      { numRuns: 150, seed: 11 },
    )
  })

  it('are the mean and spread of many single wakes', () => {
    const n = 120_000
    const draw = stream(5, 0, 0)
    const wakes = Array.from({ length: n }, (_, i) => sampleWake(EVERYTHING, i + 1, draw))
    const seen = summed(
      wakes.map(({ charge_C, duration_s, reports }) => ({ p: 1 / n, q: charge_C, t: duration_s, reports })),
    )
    const { total, reports } = momentsOf(EVERYTHING)
    expect(Math.abs(seen.charge_C - total.charge_C)).toBeLessThan(4 * Math.sqrt(total.chargeVariance_C2 / n))
    expect(Math.abs(seen.duration_s - total.duration_s)).toBeLessThan(
      4 * Math.sqrt(total.durationVariance_s2 / n),
    )
    expect(Math.abs(seen.chargeVariance_C2 / total.chargeVariance_C2 - 1)).toBeLessThan(0.02)
    expect(Math.abs(seen.covariance_C_s / total.covariance_C_s - 1)).toBeLessThan(0.02)
    expect(wakes.reduce((sum, wake) => sum + wake.reports, 0) / n).toBeCloseTo(reports, 1)
  })

  it('have no variance at all where nothing is left to chance', () => {
    const { total } = momentsOf(aWake({ steps: [aStep({ duration_s: 0.1 }), aStep({ duration_s: 0.7 })] }))
    expect([total.chargeVariance_C2, total.durationVariance_s2, total.covariance_C_s]).toEqual([0, 0, 0])
  })

  it('give a step of every n-th wake 1/n of its charge, all of its variance between wakes', () => {
    const { total, within } = momentsOf(aWake({ steps: [aStep({ every: 6, current_A: 6, duration_s: 1 })] }))
    expect(total.charge_C).toBeCloseTo(1, 14)
    expect(within.chargeVariance_C2).toBe(0)
    expect(total.chargeVariance_C2).toBeCloseTo(36 * (1 / 6) * (5 / 6), 13) // Bernoulli: x² p (1 − p)
  })

  it('end the wake without its report when every try fails', () => {
    const retries = { probability: 1, times: 2, backoff_s: 10, failedDuration_s: 3 }
    const wake = aWake({
      rest_A: 0.001,
      steps: [aStep({ current_A: 0.1, retries, reports: 1 }), aStep({ name: 'after' })],
    })
    const { total, steps, reports, completes } = momentsOf(wake)
    expect(total.duration_s).toBeCloseTo(3 * 3 + 2 * 10, 12)
    expect(total.charge_C).toBeCloseTo(9 * 0.1 + 20 * 0.001, 12)
    expect([steps[1].reached, steps[1].spread.charge_C, reports, completes]).toEqual([0, 0, 0, 0])
  })

  it('split into levels that carry the same charge', () => {
    const { total, steps } = momentsOf(EVERYTHING)
    const levels = steps.flatMap((step) => step.levels)
    expect(levels.reduce((sum, l) => sum + l.current_A * l.duration_s, 0)).toBeCloseTo(total.charge_C, 14)
    expect(levels.reduce((sum, l) => sum + l.duration_s, 0)).toBeCloseTo(total.duration_s, 12)
    expect(steps.reduce((sum, step) => sum + step.spread.charge_C, 0)).toBeCloseTo(total.charge_C, 14)
  })

  it('leave the boot steps out of a device that continues', () => {
    const names = (resume: 'continue' | 'restart') =>
      momentsOf({ ...EVERYTHING, resume }).steps.map(({ step }) => step.name)
    expect(names('restart')).toEqual(['boot', ...names('continue')])
  })

  it('are zero for a wake without steps', () => {
    expect(momentsOf(aWake({ steps: [] }))).toMatchObject({
      reports: 0,
      completes: 1,
      total: { charge_C: 0 },
    })
  })

  it.each([
    [{ chance: 1.2 }, /"work": its chance must lie in 0\.\.1, not 1\.2/],
    [{ duration_s: -1 }, /duration must be 0 s or more, not -1 s/],
    [{ every: 0 }, /"every" must be a whole number, 1 or more, not 0/],
    [{ retries: { probability: 0.1, times: 0.5, backoff_s: 1, failedDuration_s: 1 } }, /not 0\.5/],
  ])('refuse %j', (change, message) => {
    expect(() => momentsOf(aWake({ steps: [aStep(change)] }))).toThrow(message)
  })
})

describe('law of the duration', () => {
  it('has the mean and variance of the moments', () => {
    const law = durationLaw(EVERYTHING)
    const { total } = momentsOf(EVERYTHING)
    const mean = law.reduce((sum, l) => sum + l.probability * l.duration_s, 0)
    expect(law.reduce((sum, l) => sum + l.probability, 0)).toBeCloseTo(1, 12)
    expect(mean).toBeCloseTo(total.duration_s, 12)
    expect(law.reduce((sum, l) => sum + l.probability * (l.duration_s - mean) ** 2, 0)).toBeCloseTo(
      total.durationVariance_s2,
      10,
    )
  })
  it('stays small and keeps its mean when there are too many lengths to tell apart', () => {
    const steps = Array.from({ length: 14 }, (_, k) => aStep({ duration_s: Math.sqrt(k + 2), chance: 0.2 }))
    const law = durationLaw(aWake({ steps }))
    expect(law.length).toBeLessThanOrEqual(2048)
    expect(law.reduce((sum, l) => sum + l.probability * l.duration_s, 0)).toBeCloseTo(
      momentsOf(aWake({ steps })).total.duration_s,
      9,
    )
  })
})

describe("a day's charge", () => {
  it('adds up to steps, rest and standing drains', () => {
    const wake = { ...EVERYTHING, standing: [{ name: 'divider', current_A: 2e-6, from: 'cell' as const }] }
    const moments = momentsOf(wake)
    const shares = dayShares(wake, moments, 96)
    expect(shares.map(({ name }) => name).slice(-3)).toEqual(['listen', 'rest', 'divider'])
    const { charge_C, duration_s } = moments.total
    expect(shares.reduce((sum, share) => sum + share.charge_C, 0)).toBeCloseTo(
      96 * charge_C + (86_400 - 96 * duration_s) * 20e-6 + 86_400 * 2e-6,
      10,
    )
    expect(shares.at(-1)).toMatchObject({ kind: 'standing', name: 'divider', from: 'cell' })
    expect(shares.at(-1)!.charge_C).toBeCloseTo(0.1728, 12)
  })
})
