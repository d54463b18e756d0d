import { describe, expect, it } from 'vitest'
import { envelope, exact, step, sunlit } from '../../test/designs.ts'
import { ensembleOf } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { whatMatters } from './matters.ts'
import { mattersHorizon_years } from './matters-horizon.ts'
import { mattersInputs } from './matters-inputs.ts'
import { mendsOf } from './matters-mends.ts'
import { type MattersProblem, playRows } from './matters-rows.ts'

const choices = { years: 1, runs: 128, seed: 9, stepsPerHour: 1, cutDay: 181, calendarYear: 2027 }
const normal = (value: number, u: number) => ({ kind: 'normal', value, u }) as const

/** Relative distance. */
const apart = (found: number | undefined, known: number) => Math.abs((found ?? 0) / known - 1)

/** Rest alone drains it: the life is the capacity over the sum of two currents, in closed form. */
function twoDrains(): Outpost {
  const plain = exact(
    envelope({
      rest_A: 300e-6,
      standing: [{ name: 'divider', current_A: 100e-6, from: 'cell' }],
      steps: [step({ duration_s: 1e-6, current_A: 300e-6 })],
    }),
  )
  const [divider] = plain.wake.standing
  return {
    ...plain,
    wake: {
      ...plain.wake,
      rest_A: normal(300e-6, 20e-6),
      standing: [{ ...divider, current_A: normal(100e-6, 10e-6) }],
    },
  }
}

const problemOf = (outpost: Outpost, years: number, rechargeable: boolean, runs = 128): MattersProblem => ({
  ensemble: ensembleOf(outpost, { ...choices, years, runs }),
  rechargeable,
})

describe('what matters for a life', () => {
  const problem = problemOf(twoDrains(), 1, false)
  const matters = whatMatters(problem, playRows(problem, 0, 128))

  it('shares the variance as the closed form does', () => {
    const [rest, divider, weather] = matters.inputs ?? []
    // Life is capacity over current: to first order the shares are those of the currents' variances.
    expect(rest.name).toBe('rest: current')
    expect(Math.abs(rest.index.first.value - 0.8)).toBeLessThan(0.03)
    expect(Math.abs(divider.index.total.value - 0.2)).toBeLessThan(0.03)
    expect(weather.kind).toBe('weather')
    expect(Math.abs(weather.index.total.value)).toBeLessThan(1e-9)
  })

  it('says what knowing a number would leave', () => {
    const [rest] = matters.inputs ?? []
    // With rest known, life varies with the divider's 10 µA of 400 µA: ± 1.645 standard deviations.
    const life_days = (0.5 * 3600) / 400e-6 / 86_400
    expect(apart(rest.leftWidth, 2 * 1.645 * (10 / 400) * life_days)).toBeLessThan(0.06)
    expect(apart(matters.spread.median, life_days)).toBeLessThan(0.01)
  })

  it('gains by a mend what the closed form says', () => {
    const rest = matters.mends.find(({ part }) => part === 'rest')
    const divider = matters.mends.find(({ part }) => part === 'divider')
    const charge_C = 0.5 * 3600
    const days = (current_A: number) => charge_C / current_A / 86_400
    expect(apart(rest?.gain.value, days(250e-6) - days(400e-6))).toBeLessThan(0.02)
    expect(apart(divider?.gain.value, days(300e-6) - days(400e-6))).toBeLessThan(0.02)
    expect(rest?.winters).toBeNull()
  })

  it('is the same however the rows are shared out', () => {
    const parts = [...playRows(problem, 0, 50), ...playRows(problem, 50, 51), ...playRows(problem, 51, 128)]
    expect(whatMatters(problem, parts)).toEqual(matters)
  })

  it('is followed for two and a half times the life at best', () => {
    const { years, life_years } = mattersHorizon_years(problem.ensemble, null)
    expect(life_years * 365 * 86_400 * 400e-6).toBeCloseTo(0.5 * 3600, -1)
    expect(years).toBe(Math.ceil(2.5 * life_years))
  })
})

describe('what matters for a winter', () => {
  const plain = exact({ ...sunlit, wake: { ...sunlit.wake, steps: [step({ duration_s: 2 })] } })
  const outpost: Outpost = {
    ...plain,
    wake: { ...plain.wake, rest_A: { kind: 'uniform', low: 10e-6, high: 1.5e-3 } },
  }
  const problem = problemOf(outpost, 2, true, 32)
  const matters = whatMatters(problem, playRows(problem, 0, 32))

  it('tells the weather from the numbers of the file, and the cell from its lot', () => {
    expect(mattersInputs(outpost).map(({ kind }) => kind)).toEqual(['number', 'cell', 'weather'])
    expect(matters.of).toBe('least charge')
    const [most] = matters.inputs ?? []
    expect(most.name).toBe('rest: current')
    const weather = matters.inputs?.find(({ kind }) => kind === 'weather')
    expect(weather?.index.total.value).toBeGreaterThan(0)
  })

  it('gains charge, and no winter fewer, by each mend', () => {
    expect(matters.mends.map(({ part }) => part)).toContain('send')
    for (const { gain, winters } of matters.mends) {
      expect(gain.value).toBeGreaterThanOrEqual(0)
      expect(winters?.value).toBeGreaterThanOrEqual(0)
    }
  })

  it('says nothing of numbers where none varies anything', () => {
    const dark = problemOf(exact({ ...sunlit, place: { ...sunlit.place, soiling: 1 } }), 1, true, 8)
    const none = whatMatters(dark, playRows(dark, 0, 8))
    expect(none.survived).toBe(0)
    expect(none.mends.length).toBe(mendsOf(sunlit).length)
  })
})
