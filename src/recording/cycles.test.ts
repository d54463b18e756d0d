import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { clockAlignment } from './cycles-clock.ts'
import { overlayCycles } from './cycles-overlay.ts'
import { analyse } from './states.ts'
import { samplesOf } from './states-samples.ts'

const INTERVAL_S = 0.002
const CURRENTS = [0.0007, 0.02, 0.2, 0.06]

type Visits = readonly (readonly [state: number, duration_s: number])[]

function recordingOfVisits(visits: Visits): Float32Array {
  const draws = stream(2, 0, 0)
  return Float32Array.from(
    visits.flatMap(([state, duration_s]) =>
      Array.from(
        { length: Math.round(duration_s / INTERVAL_S) },
        () => CURRENTS[state] * (1 + 0.03 * draws.normal()),
      ),
    ),
  )
}

const GOOD: Visits = [
  [1, 0.3],
  [2, 0.1],
  [3, 0.4],
]

/** Ten wakes 10 s apart, the fifth as given, and what the analysis makes of them. */
function withFifth(fifth: Visits, rest_s?: number) {
  const visits: [number, number][] = [[0, 5]]
  for (let k = 0; k < 10; k++) {
    const work = k === 4 ? fifth : GOOD
    visits.push(...work.map(([state, duration_s]): [number, number] => [state, duration_s]))
    const worked = work.reduce((sum, [, duration_s]) => sum + duration_s, 0)
    visits.push([0, k === 4 && rest_s !== undefined ? rest_s : 10 - worked])
  }
  return analyse(samplesOf(recordingOfVisits(visits), INTERVAL_S)).cycles
}

describe('cycles', () => {
  it('counts wakes and finds nothing odd in equal ones', () => {
    const { list, typical, period_s, jitter_s, rest, charge_C } = withFifth(GOOD)
    expect(rest).toBe(0)
    expect(list).toHaveLength(10)
    expect(list.flatMap(({ odd }) => odd)).toEqual([])
    // States come by rising current: 0.7, 20, 60 and 200 mA.
    expect(typical).toEqual({ sequence: [1, 3, 2], wakes: 10 })
    expect(period_s!.median).toBeCloseTo(10, 6)
    expect(jitter_s).toBeLessThan(0.01)
    const expected = 0.3 * 0.02 + 0.1 * 0.2 + 0.4 * 0.06 + 9.2 * 0.0007
    expect(Math.abs(charge_C!.mean / expected - 1)).toBeLessThan(0.005)
    expect(list[9]).toMatchObject({ period_s: null, charge_C: null })
  })

  const longer: Visits = [
    [1, 0.3],
    [2, 0.1],
    [3, 1.2],
  ] // prettier-ignore
  it.each([
    ['a retry', [...GOOD.slice(0, 2), ...GOOD], [{ kind: 'repeated', states: [1, 3] }]],
    [
      'a retry after a pause',
      [...GOOD.slice(0, 2), [0, 0.5], ...GOOD],
      [{ kind: 'repeated', states: [1, 3] }],
    ],
    ['a wake that ends early', GOOD.slice(0, 2), [{ kind: 'truncated', states: [2] }]],
    ['a state too many', [...GOOD, [1, 0.2]], [{ kind: 'extra', states: [1] }]],
    ['a state too few', [GOOD[0], GOOD[2]], [{ kind: 'lacking', states: [3] }]],
  ] as [string, Visits, object[]][])('says why the fifth wake is odd: %s', (_, fifth, odd) => {
    const { list } = withFifth(fifth)
    expect(list).toHaveLength(10)
    expect(list[4].odd).toEqual(odd)
    expect(list.filter((cycle) => cycle.odd.length > 0)).toHaveLength(1)
  })

  it('says that a state lasted longer, and how long it does as a rule', () => {
    const [odd, ...others] = withFifth(longer).list[4].odd
    expect(others).toEqual([])
    expect(odd).toMatchObject({ kind: 'longer', state: 2, place: 2 })
    expect(odd.kind === 'longer' && odd.lasted_s / odd.usual_s).toBeCloseTo(3, 1)
  })

  it('says that two wakes were missed', () => {
    const { list } = withFifth(GOOD, 29.2)
    expect(list).toHaveLength(10)
    expect(list.map(({ odd }) => odd.length)).toEqual([0, 0, 0, 0, 1, 0, 0, 0, 0, 0])
    expect(list[4].odd).toEqual([{ kind: 'missed', wakes: 2 }])
  })

  it('takes short rests between random events for rests', () => {
    const draws = stream(9, 0, 0)
    const visits: [number, number][] = [[0, 3]]
    for (let k = 0; k < 30; k++) visits.push([1, 0.3], [2, 0.1], [0, 0.2 - 4 * Math.log(draws.uniform())])
    const { cycles } = analyse(samplesOf(recordingOfVisits(visits), INTERVAL_S))
    expect(cycles.list).toHaveLength(30)
    expect(cycles.list.flatMap(({ odd }) => odd.filter(({ kind }) => kind === 'missed'))).toEqual([])
  })

  it('does not count what was under way at the start, nor call odd what the end cuts', () => {
    const visits: [number, number][] = [[3, 0.2]]
    for (let k = 0; k < 5; k++) visits.push([0, 9.2], ...(GOOD as [number, number][]))
    visits.push([0, 9.2], [1, 0.1])
    const { cycles } = analyse(samplesOf(recordingOfVisits(visits), INTERVAL_S))
    expect(cycles.list).toHaveLength(6)
    expect(cycles.list.flatMap(({ odd }) => odd)).toEqual([])
  })

  it('overlays all wakes on one axis', () => {
    const current_A = recordingOfVisits([
      [0, 5],
      ...Array.from({ length: 6 }, () => [...GOOD, [0, 5]] as Visits).flat(),
    ])
    const samples = samplesOf(current_A, INTERVAL_S)
    const { segments, cycles } = analyse(samples)
    const overlay = overlayCycles(samples, segments, cycles, 100, 4)!
    expect(overlay.cycles).toEqual([0, 1, 3, 4])
    const at = (time_s: number) => overlay.median_A[Math.floor(time_s / overlay.step_s)]
    expect(at(0.15)).toBeCloseTo(0.02, 2)
    expect(at(0.35)).toBeCloseTo(0.2, 1)
    expect(at(0.6)).toBeCloseTo(0.06, 2)
    expect(at(0.9)).toBeCloseTo(0.0007, 3)
    expect(() => overlayCycles(samples, segments, cycles, 0)).toThrow(RangeError)
  })
})

describe('clockAlignment', () => {
  // An alarm "N minutes from now" on a clock with minute resolution fires at the N-th change of the minute (common practice).
  it('sees wakes at the change of the minute, however long the work takes', () => {
    const starts = [0, 5, 10, 15, 20, 30, 35].map((minute) => 17 + 60 * minute)
    const epoch_s = Date.UTC(2024, 0, 1, 8, 0, 43) / 1000
    const aligned = clockAlignment(starts, epoch_s)!
    expect(aligned.minutes).toBe(5)
    expect(Math.min(aligned.second_s!, 60 - aligned.second_s!)).toBeCloseTo(0, 6)
    expect(aligned.deviation_s).toBeCloseTo(0, 3)
    expect(clockAlignment(starts, null)!.second_s).toBeNull()
  })

  it('sees none where the work pushes the next wake on, or wakes come every few seconds', () => {
    expect(clockAlignment([0, 308, 616, 924, 1232], 0)).toBeNull()
    expect(clockAlignment([0, 60], 0)).toBeNull()
    expect(clockAlignment([0, 0.1, 0.2, 0.3, 0.4], 0)).toBeNull()
  })
})
