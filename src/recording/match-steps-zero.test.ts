/** Charges of which the instrument saw part as zero: worked out by hand from a recording without noise. */
import { describe, expect, it } from 'vitest'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import type { Step } from '../wake/wake.ts'
import { matchSteps } from './match-steps.ts'
import { measureSteps } from './match-steps-measure.ts'
import { analyse } from './states.ts'
import { samplesOf } from './states-samples.ts'

const INTERVAL_s = 1e-3
const SEND_s = 0.2
const REST_s = 1.8

const send: Step = {
  name: 'send',
  duration_s: exactly(SEND_s),
  current_A: exactly(0.02),
  peak: null,
  chance: exactly(1),
  every: 1,
  retries: null,
  reports: 1,
  rail: null,
  note: null,
}

/** Twelve wakes of 20 mA for 0.2 s, and between them nothing that the meter shows. */
const current_A = Float32Array.from({ length: 24_000 }, (_, k) => (k % 2000 < 200 ? 0.02 : 0))
const analysis = analyse(samplesOf(current_A, INTERVAL_s))
const expected = { steps: [send], drains: [] }

function measured(currents: readonly Uncertain[]) {
  const { roles } = matchSteps(analysis, expected)
  return measureSteps(analysis, currents, roles, expected, INTERVAL_s)
}

const zero = { kind: 'below', limit: 500e-6 } as const
const sent = { kind: 'normal', value: 0.02, u: 1e-4 } as const

describe('a charge of which part read zero', () => {
  it('lies between none of that and all of it, and is told with half', () => {
    const { cycle, rest } = measured([zero, sent])
    const unseen_C = zero.limit * REST_s
    expect(rest).toEqual(zero)
    expect(cycle?.charge_C.value).toBeCloseTo(0.02 * SEND_s + unseen_C / 2, 9)
    const [lowest, highest] = cycle?.charge_C.ends ?? []
    expect(lowest?.value).toBeCloseTo(0.02 * SEND_s, 9)
    expect(highest?.value).toBeCloseTo(0.02 * SEND_s + unseen_C, 9)
    // What the instrument leaves open of the step, and nothing of the rest.
    for (const end of [lowest, highest]) expect(end?.u).toBeCloseTo(1e-4 * SEND_s, 8)
  })

  it('has no such ends where the meter resolves it', () => {
    const { cycle, steps } = measured([{ kind: 'normal', value: 1e-5, u: 1e-7 }, sent])
    expect(cycle?.charge_C.ends).toBeNull()
    expect(steps[0]?.charge_C?.ends).toBeNull()
  })

  it('of a step that reads zero goes up to half a digit for as long as it lasts', () => {
    const [step] = measured([exactly(0), zero]).steps
    expect(step?.current).toEqual(zero)
    expect(step?.charge_C?.ends?.[1].value).toBeCloseTo(
      (step?.charge_C?.ends?.[0].value ?? 0) + 500e-6 * SEND_s,
      7,
    )
  })
})

describe('a current that is one of several in turn', () => {
  /** Twelve wakes of a third of a step at the lower level, and two thirds at the higher. */
  const levels_A = Float32Array.from({ length: 24_000 }, (_, k) => [1e-5, 1e-3, 0.02][levelAt(k % 2000)])
  const two = analyse(samplesOf(levels_A, INTERVAL_s))
  const roles = [[{ kind: 'rest' }], [{ kind: 'step', step: 0 }], [{ kind: 'step', step: 0 }]] as const
  const currentOf = (lower: Uncertain, higher: Uncertain) =>
    measureSteps(two, [exactly(1e-5), lower, higher], roles, expected, INTERVAL_s).steps[0]?.current

  it('lies between two ends where part of it read zero', () => {
    const current = currentOf(zero, sent)
    const [low, high] = current?.kind === 'uniform' ? [current.low, current.high] : []
    // 20 ± 0.2 mA for two thirds of the time, and anything up to 500 µA for the rest of it.
    expect(low).toBeCloseTo((2 * 0.0198) / 3, 4)
    expect(high).toBeCloseTo((2 * 0.0202 + 500e-6) / 3, 4)
  })

  it('is below a limit where all of it read zero', () => {
    expect(currentOf(zero, zero)).toMatchObject({ kind: 'below' })
  })
})

function levelAt(place: number): number {
  if (place < 1000 || place >= 1300) return 0
  return place < 1100 ? 1 : 2
}
