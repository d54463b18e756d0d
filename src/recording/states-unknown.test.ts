/** Time that was not measured stays out of what is said of states, wakes and steps. The truth is what is made up here. */
import { describe, expect, it } from 'vitest'
import { matchSteps } from './match-steps.ts'
import { measureSteps } from './match-steps-measure.ts'
import { recordingOf } from './memory.ts'
import { analyse } from './states.ts'
import { samplesOfRecording } from './states-samples.ts'

const INTERVAL_s = 1e-3
const WAKES = 20
const PERIOD_s = 2

/** From 1 s on every 2 s: 100 ms at 5 mA, 60 ms at 40 mA; else 20 µA; with one part in a hundred of noise. */
function device(seconds = WAKES * PERIOD_s) {
  const count = Math.round(seconds / INTERVAL_s)
  const into = (i: number) => (i - 1000) % 2000
  const level = (i: number) => (i < 1000 || into(i) >= 160 ? 20e-6 : into(i) < 100 ? 5e-3 : 40e-3)
  const current_A = Float32Array.from({ length: count }, (_, i) => level(i) * (1 + 0.01 * Math.sin(1.7 * i)))
  const time_s = Float64Array.from({ length: count }, (_, i) => i * INTERVAL_s)
  return { time_s, current_A, sends: (i: number) => i >= 1000 && into(i) >= 100 && into(i) < 160 }
}

type Measured = Pick<ReturnType<typeof device>, 'time_s' | 'current_A'>

function analysed({ time_s, current_A }: Measured) {
  const recording = recordingOf({ count: current_A.length, time_s, current_A, voltage_V: null })
  return analyse(samplesOfRecording(recording))
}

/** Without the samples from … to − 1. */
function without({ time_s, current_A }: Measured, lost: (i: number) => boolean): Measured {
  const kept = (_: number, i: number) => !lost(i)
  return { time_s: time_s.filter(kept), current_A: current_A.filter(kept) }
}

function measuredSteps(analysis: ReturnType<typeof analyse>) {
  const step = { peak: null, every: 1, retries: null, reports: 0, rail: null, note: null } as const
  const exact = (value: number) => ({ kind: 'exact', value }) as const
  const steps = [
    { ...step, name: 'sense', duration_s: exact(0.1), current_A: exact(5e-3), chance: exact(1) },
    { ...step, name: 'send', duration_s: exact(0.06), current_A: exact(40e-3), chance: exact(1) },
  ]
  const expected = { steps, drains: [] }
  const currents = analysis.states.map(({ mean_A }) => exact(mean_A))
  return measureSteps(analysis, currents, matchSteps(analysis, expected).roles, expected, INTERVAL_s)
}

describe('time without a number', () => {
  const overloaded = (wakes: number) => {
    const { time_s, current_A, sends } = device()
    return { time_s, current_A: current_A.map((x, i) => (sends(i) && i < wakes * 2000 ? Number.NaN : x)) }
  }

  it('gives no state a length or a time that was not seen, where every wake has some', () => {
    const { states, cycles, segments } = analysed(overloaded(WAKES))
    expect(states).toHaveLength(2)
    expect(states[1].dwell).toBeNull()
    expect(states[1].time_s).toBeCloseTo(WAKES * 0.1, 6)
    expect(states[0].timeShare + states[1].timeShare).toBeCloseTo(1, 12)
    expect(cycles).toMatchObject({ period_s: null, charge_C: null, work_s: null })
    expect(cycles.list).toHaveLength(WAKES)
    expect(cycles.list.every(({ measured }) => !measured)).toBe(true)
    const { steps, cycle, shortfalls } = measuredSteps({ ...analysed(overloaded(WAKES)), segments })
    expect(steps[0]).toMatchObject({ duration_s: null, charge_C: null, shortfall: 'incomplete' })
    expect(cycle).toBeNull()
    expect(shortfalls.cycle).toBe('incomplete')
  })

  it('leaves out the wakes that have some, where most have none', () => {
    const analysis = analysed(overloaded(5))
    const { states, cycles } = analysis
    expect(states[1].dwell).toMatchObject({ visits: WAKES - 5, deviation_s: expect.closeTo(0, 3) })
    expect(states[1].dwell?.mean_s).toBeCloseTo(0.1, 4)
    expect(cycles.work_s?.p95_s).toBeCloseTo(0.16, 4)
    expect(cycles.typical).toEqual({ sequence: [1, 2], wakes: WAKES - 5 })
    expect(cycles.list.flatMap(({ odd }) => odd)).toEqual([])
    const { steps, cycle, shortfalls } = measuredSteps(analysis)
    expect(steps[0]?.charge_C?.value).toBeCloseTo(500e-6, 6)
    expect(steps[0]).toMatchObject({ seen: WAKES - 5, wakes: WAKES - 5, shortfall: null })
    expect(cycle?.charge_C.value).toBeCloseTo(0.1 * 5e-3 + 0.06 * 40e-3 + 1.84 * 20e-6, 5)
    expect(shortfalls).toEqual({ rest: null, cycle: null })
  })
})

describe('time without samples', () => {
  it('misses no wakes while nothing was measured', () => {
    // The meter pauses for 12 s at rest: five wakes may have come.
    const paused = without(device(60), (i) => i >= 21_500 && i < 33_500)
    const { cycles, states } = analysed(paused)
    expect(cycles.list.flatMap(({ odd }) => odd)).toEqual([])
    expect(cycles.period_s?.count).toBe(cycles.list.length - 2)
    expect(cycles.period_s?.p95).toBeCloseTo(PERIOD_s, 3)
    expect(states[0].dwell?.p95_s).toBeCloseTo(1.84, 3)
    expect(measuredSteps(analysed(paused)).cycle?.period_s.value).toBeCloseTo(PERIOD_s, 3)
  })

  it('counts an hour that was not measured to no state', () => {
    const { time_s, current_A } = device()
    // In the middle of the tenth wake's first step.
    const jumped = { current_A, time_s: time_s.map((t, i) => (i > 19_050 ? t + 3600 : t)) }
    const { states, cycles } = analysed(jumped)
    expect(states[1].timeShare).toBeCloseTo(0.05, 2)
    expect(states[1].dwell).toMatchObject({ visits: WAKES - 1, p95_s: expect.closeTo(0.1, 4) })
    expect(cycles.work_s?.p95_s).toBeCloseTo(0.16, 4)
    expect(cycles.list.flatMap(({ odd }) => odd)).toEqual([])
    expect(measuredSteps(analysed(jumped)).steps[0]?.charge_C?.value).toBeCloseTo(500e-6, 6)
  })

  it('does not take the rest of a step for all of it where its beginning was lost', () => {
    const { sends, ...whole } = device()
    // The first 40 ms of each send are dropped, so each change to it is, too.
    const lost = without(whole, (i) => sends(i) && !sends(i - 40))
    const { states } = analysed(lost)
    expect(states).toHaveLength(3)
    expect(states[2].dwell).toBeNull()
    expect(measuredSteps(analysed(lost)).steps.map((step) => step?.shortfall)).toEqual([
      'incomplete',
      'incomplete',
    ])
  })

  it.each([
    ['in the middle of', 130],
    ['at the beginning of', 100],
    ['at the end of', 159],
  ])('makes little of a sample lost %s a step, in which no state can hide', (_, place) => {
    // Its third wake retried, and lost the sample.
    const { time_s, current_A } = device()
    const retried = current_A.map((x, i) => (i >= 5160 && i < 5320 ? current_A[i - 160] : x))
    const { states, cycles } = analysed(without({ time_s, current_A: retried }, (i) => i === 5000 + place))
    expect(cycles.list.every(({ measured }) => measured)).toBe(true)
    expect(cycles.list[2].odd).toEqual([{ kind: 'repeated', states: [1, 2] }])
    expect(states[2].dwell?.visits).toBe(WAKES + 1)
    expect(cycles.charge_C?.count).toBe(WAKES - 1)
  })

  it('counts no charge of a cycle of which more than a hundredth is missing', () => {
    // Two samples of the third wake's 60 at its highest current.
    const { cycles } = analysed(without(device(), (i) => i === 5120 || i === 5130))
    expect(cycles.period_s?.count).toBe(WAKES - 1)
    expect(cycles.charge_C?.count).toBe(WAKES - 2)
    expect(cycles.list[2].charge_C).toBeNull()
  })

  it('still times a rest that lost a sample in some thousand', () => {
    const { cycles, states } = analysed(without(device(), (i) => i % 2000 === 0 && i > 0))
    expect(cycles.period_s?.count).toBe(cycles.list.length - 1)
    expect(states[0].dwell?.median_s).toBeCloseTo(1.84, 3)
  })
})
