import { describe, expect, it } from 'vitest'
import { aCadence, aStep, aWake, EVERYTHING } from '../../test/example-wakes.ts'
import { stream } from '../numeric/random.ts'
import { firstWake_s, nextWake } from './cadence.ts'
import { expectedWakes } from './expected-wakes.ts'
import { timesOfYear, YEAR_s } from './local-times.ts'
import { momentsOf } from './moments.ts'
import { sampleWake } from './sample-wake.ts'
import type { Schedule, Wake } from './wake.ts'

/** Rates per day as many single wakes, one after the other, show them. */
function followed(wake: Wake<number>, wakes: number, times_s: Float64Array | null = null) {
  const draw = stream(21, 0, 0)
  const first_s = firstWake_s(wake.cadence, draw)
  let at_s = first_s
  let missed = 0
  let reports = 0
  for (let index = 1; index <= wakes; index++) {
    const one = sampleWake(wake, index, draw)
    const next = nextWake(wake.cadence, 0, { start_s: at_s, end_s: at_s + one.duration_s }, times_s, draw)!
    at_s = next.at_s
    missed += next.missed
    reports += one.reports
  }
  const days = (at_s - first_s) / 86_400
  return { wakesPerDay: wakes / days, missedPerDay: missed / days, reportsPerDay: reports / days }
}

const own = (wake: Wake<number>, times_s: Float64Array | null = null) => expectedWakes(wake, times_s, 3600)[0]
const long = [aStep({ duration_s: 20 }), aStep({ duration_s: 50, chance: 0.3 })]

describe('expected wakes', () => {
  it('of a rest are one in rest and mean work', () => {
    const cadence = aCadence({ kind: 'rest', rest_s: 290 })
    expect(own(aWake({ cadence, steps: [aStep({ duration_s: 10 })] }))).toMatchObject({
      wakesPerStep: 12,
      pattern: null,
      wakesPerDay: 288,
      missedPerDay: 0,
    })
  })

  it('of a rate that the work always overruns are every other one', () => {
    const cadence = aCadence({ kind: 'rate', period_s: 60 })
    const { wakesPerDay, missedPerDay } = own(aWake({ cadence, steps: [aStep({ duration_s: 90 })] }))
    expect([wakesPerDay, missedPerDay]).toEqual([720, 720])
  })

  it('of a rate whose work just fits are all of them', () => {
    const cadence = aCadence({ kind: 'rate', period_s: 60 })
    const steps = Array.from({ length: 600 }, () => aStep({ duration_s: 0.1 }))
    expect(own(aWake({ cadence, steps }))).toMatchObject({ wakesPerDay: 1440, missedPerDay: 0 })
  })

  it('of a rate whose work just fits leave no rest for events', () => {
    const cadence = aCadence({ kind: 'rate', period_s: 60 }, { events: { perDay: 500 } })
    const { wakesPerDay, missedPerDay } = own(aWake({ cadence, steps: [aStep({ duration_s: 60 })] }))
    expect(wakesPerDay).toBeCloseTo(1440, 3)
    expect(missedPerDay).toBeCloseTo(0, 3)
  })

  it('of clock minutes are whole minutes apart', () => {
    const apart_s = (minutes: number, duration_s: number) =>
      86_400 /
      own(aWake({ cadence: aCadence({ kind: 'clock-minutes', minutes }), steps: [aStep({ duration_s })] }))
        .wakesPerDay
    expect(apart_s(5, 10)).toBeCloseTo(300, 9)
    expect(apart_s(1, 59.9)).toBeCloseTo(60, 9)
    expect(apart_s(1, 60)).toBeCloseTo(120, 9)
    expect(apart_s(5, 130)).toBeCloseTo(420, 9)
  })

  it('of times of day lie in their hours of standard time, summer and winter', () => {
    const schedule: Schedule<number> = {
      kind: 'times-of-day',
      times: [
        { hour: 7, minute: 10, second: 0 },
        { hour: 7, minute: 50, second: 0 },
      ],
      zone: 'Europe/Berlin',
    }
    const times_s = timesOfYear(schedule.times, schedule.zone, 1, 2025)
    const wake = aWake({ cadence: aCadence(schedule) })
    const { pattern, wakesPerDay } = own(wake, times_s)
    expect(pattern!.length).toBe(8760)
    expect([pattern![7], pattern![6], pattern![180 * 24 + 6], pattern![180 * 24 + 7]]).toEqual([2, 0, 2, 0])
    expect(wakesPerDay).toBeCloseTo(2, 12)
    const tenMinutes = expectedWakes(wake, times_s, 600)[0].pattern!
    expect([tenMinutes.length, tenMinutes[43], tenMinutes[46], tenMinutes[47]]).toEqual([52_560, 1, 0, 1])
  })

  it('follow the thrift table row by row', () => {
    const thrift = [{ below_V: 3.7, hysteresis_V: 0.1, interval_s: 890 }]
    const cadence = aCadence({ kind: 'rest', rest_s: 290 }, { thrift })
    const rows = expectedWakes(aWake({ cadence, steps: [aStep({ duration_s: 10, reports: 2 })] }), null, 3600)
    expect(rows.map((row) => [row.below_V, row.hysteresis_V, row.wakesPerStep, row.reportsPerDay])).toEqual([
      [Infinity, 0, 12, 576],
      [3.7, 0.1, 4, 192],
    ])
  })

  it('with a batch sent in every sixth wake bring as many reports as readings', () => {
    const cadence = aCadence({ kind: 'rate', period_s: 14_400 })
    const steps = [aStep({}), aStep({ every: 6, reports: 6 })]
    expect(own(aWake({ cadence, steps })).reportsPerDay).toBeCloseTo(6, 12)
  })

  it('are none where nothing wakes the device', () => {
    expect(own(aWake({ cadence: aCadence(null) })).wakesPerDay).toBe(0)
  })

  it('refuse a device that never rests, and a step that does not divide a day', () => {
    const restless = aWake({ steps: [], cadence: aCadence({ kind: 'rest', rest_s: 0 }) })
    expect(() => own(restless)).toThrow(/neither work nor rest takes any time/)
    expect(() => expectedWakes(aWake({}), null, 1000)).toThrow(/divide a day/)
  })
})

const noon = { hour: 12, minute: 0, second: 0 }
const soon = { hour: 12, minute: 0, second: 40 }
const twice: Schedule<number> = { kind: 'times-of-day', times: [noon, soon], zone: 'Asia/Kolkata' }
const twice_s = timesOfYear(twice.times, twice.zone, 5.5, 2025)
/** Whether the third is done depends on whether the second was. */
const thrice: Schedule<number> = { ...twice, times: [noon, soon, { hour: 12, minute: 1, second: 20 }] }
const thrice_s = timesOfYear(thrice.times, thrice.zone, 5.5, 2025)

describe('expected wakes agree with wakes followed one by one', () => {
  it.each<[string, Schedule<number> | null, number | null, Wake<number>['steps'], Float64Array | null]>([
    ['fixed rest', { kind: 'rest', rest_s: 30 }, null, EVERYTHING.steps, null],
    ['fixed rest with events', { kind: 'rest', rest_s: 600 }, 200, long, null],
    ['fixed rate', { kind: 'rate', period_s: 10 }, null, EVERYTHING.steps, null],
    ['fixed rate that is often overrun', { kind: 'rate', period_s: 30 }, null, long, null],
    ['fixed rate with events', { kind: 'rate', period_s: 600 }, 100, long, null],
    ['clock minutes', { kind: 'clock-minutes', minutes: 1 }, null, long, null],
    ['clock minutes with events', { kind: 'clock-minutes', minutes: 10 }, 100, long, null],
    ['clock minutes amid many events', { kind: 'clock-minutes', minutes: 1 }, 1000, long, null],
    ['fixed rate amid many events', { kind: 'rate', period_s: 45 }, 1000, long, null],
    ['times of day of which the second is often missed', twice, null, long, twice_s],
    [
      'times of day close together',
      thrice,
      null,
      [aStep({ duration_s: 30 }), aStep({ duration_s: 30, chance: 0.5 })],
      thrice_s,
    ],
    ['times of day with events', twice, 30, long, twice_s],
    ['events alone', null, 400, long, null],
  ])('%s', (_, schedule, perDay, steps, times_s) => {
    const events = perDay === null ? null : { perDay }
    const wake = aWake({ steps, cadence: aCadence(schedule, { events }) })
    const expected = own(wake, times_s)
    const seen = followed(wake, 60_000, times_s)
    expect(Math.abs(seen.wakesPerDay / expected.wakesPerDay - 1)).toBeLessThan(0.01)
    expect(Math.abs(seen.missedPerDay - expected.missedPerDay)).toBeLessThan(0.01 * expected.wakesPerDay)
    expect(Math.abs(seen.reportsPerDay - expected.reportsPerDay)).toBeLessThan(0.02 * expected.wakesPerDay)
  })

  it('and charge over thirty days within half a percent', () => {
    const wake = { ...EVERYTHING, cadence: aCadence({ kind: 'clock-minutes', minutes: 1 }) }
    const draw = stream(2, 0, 0)
    let at_s = firstWake_s(wake.cadence, draw)
    let charge_C = 0
    for (let index = 1; at_s < 30 * 86_400; index++) {
      const one = sampleWake(wake, index, draw)
      charge_C += one.charge_C
      const work = { start_s: at_s, end_s: at_s + one.duration_s }
      at_s = nextWake(wake.cadence, 0, work, null, draw)!.at_s
    }
    const expected_C = 30 * own(wake).wakesPerDay * momentsOf(wake).total.charge_C
    expect(Math.abs(charge_C / expected_C - 1)).toBeLessThan(0.005)
  })

  it('in every step of the year', () => {
    const wake = aWake({ steps: long, cadence: aCadence(twice) })
    const { pattern, missedPerDay } = own(wake, twice_s)
    // The second time follows after 40 s; the work takes 70 s in 3 wakes of 10.
    expect(pattern![12]).toBeCloseTo(1.7, 12)
    expect(missedPerDay).toBeCloseTo(0.3, 12)
    expect(pattern!.reduce((sum, wakes) => sum + wakes, 0)).toBeCloseTo(1.7 * (YEAR_s / 86_400), 9)
  })
})
