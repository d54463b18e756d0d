import { describe, expect, it } from 'vitest'
import { aCadence } from '../../test/example-wakes.ts'
import { stream } from '../numeric/random.ts'
import { firstWake_s, nextWake, scheduleOf, thriftRow } from './cadence.ts'
import { timesOfYear, YEAR_s } from './local-times.ts'
import type { Cadence, Schedule } from './wake.ts'

const wakeAfter = (
  cadence: Cadence<number>,
  start_s: number,
  end_s: number,
  times_s: Float64Array | null = null,
) => nextWake(cadence, 0, { start_s, end_s }, times_s, stream(1, 0, 0))

describe('a fixed rest', () => {
  it('counts from the end of the work, however long it was', () => {
    expect(wakeAfter(aCadence({ kind: 'rest', rest_s: 300 }), 10, 14)).toEqual({
      at_s: 314,
      cause: 'schedule',
      missed: 0,
    })
  })
})

describe('a fixed rate', () => {
  const cadence = aCadence({ kind: 'rate', period_s: 60 })
  it.each([
    ['stays on its grid', 120, 130, 180, 0],
    ['misses the wakes that fall into longer work', 120, 250, 300, 2],
    ['is on time when the work ends on the tick', 120, 180, 180, 0],
    ['takes no harm from rounding at the tick', 120, 180 + 1e-9, 180, 0],
    ['does not wake twice at one tick for work that takes no time', 120, 120, 180, 0],
    ['keeps its grid after an event between ticks', 130, 135, 180, 0],
    ['is still exact after twenty years', 630_720_000, 630_720_003, 630_720_060, 0],
  ])('%s', (_, start_s, end_s, at_s, missed) => {
    expect(wakeAfter(cadence, start_s, end_s)).toEqual({ at_s, cause: 'schedule', missed })
  })
})

describe('an alarm in clock minutes', () => {
  const cadence = (minutes: number) => aCadence({ kind: 'clock-minutes', minutes })
  it.each([
    ['fires at the N-th change of the minute', 1, 100, 120],
    ['fires almost at once when the minute is nearly over', 1, 119.5, 120],
    ['waits for the N-th change, not for N whole minutes', 5, 119.5, 360],
    ['lets the change pass on which the work ends', 1, 120, 180],
    ['has its short first rest at any time of day', 5, 86_399, 86_640],
  ])('%s', (_, minutes, end_s, at_s) => {
    expect(wakeAfter(cadence(minutes), 90, end_s)!.at_s).toBe(at_s)
  })
  it('makes the first rest half a minute short on average, and all later wakes whole minutes', () => {
    const n = 20_000
    const draw = stream(3, 0, 0)
    let short_s = 0
    for (let i = 0; i < n; i++) {
      const start_s = firstWake_s(cadence(5), draw)
      const first = wakeAfter(cadence(5), start_s, start_s + 10)!
      short_s += 300 - (first.at_s - start_s - 10)
      expect(first.at_s % 60).toBe(0)
      expect(wakeAfter(cadence(5), first.at_s, first.at_s + 10)!.at_s - first.at_s).toBe(300)
    }
    // Uniform on 0..60 s: mean 30 s, standard deviation 60 / √12.
    expect(Math.abs(short_s / n - 30)).toBeLessThan((4 * 60) / Math.sqrt(12 * n))
  })
})

const at = (hour: number, minute = 0, second = 0) => ({ hour, minute, second })
const HOUR_s = 3600
const DAY_s = 86_400
/** Seconds of the year at a date of 2025 and an hour of standard time. */
const on = (month: number, day: number, hour: number) =>
  (Date.UTC(2025, month - 1, day) - Date.UTC(2025, 0, 1)) / 1000 + hour * HOUR_s

describe('times of day', () => {
  it('are 365 wakes a year for one time, in zones without daylight saving at their own hour', () => {
    // India keeps UTC + 5:30 all the year.
    const times = timesOfYear([at(6, 15)], 'Asia/Kolkata', 5.5, 2025)
    expect(times.length).toBe(365)
    expect([...times].every((t) => t % DAY_s === 6.25 * HOUR_s)).toBe(true)
  })

  // The European rule (Directive 2000/84/EC): last Sunday of March and of October at 01:00 UTC; in 2025, 30 and 26.
  it('come an hour earlier by standard time in summer', () => {
    const times = [...timesOfYear([at(7)], 'Europe/Berlin', 1, 2025)]
    expect(times.length).toBe(365)
    expect(times).toContain(on(3, 29, 7))
    expect(times).toContain(on(3, 30, 6))
    expect(times).toContain(on(10, 25, 6))
    expect(times).toContain(on(10, 26, 7))
    expect(times.filter((t) => t % DAY_s === 6 * HOUR_s).length).toBe(210)
  })
  it('that the spring change leaves out come later by its jump, those that autumn doubles come once, at first', () => {
    const times = [...timesOfYear([at(2, 30)], 'Europe/Berlin', 1, 2025)]
    expect(times.length).toBe(365)
    expect(times).toContain(on(3, 30, 2.5)) // 03:30 summer time
    expect(times).toContain(on(10, 26, 1.5)) // 02:30 summer time, and not again an hour later
    expect(times).not.toContain(on(10, 26, 2.5))
  })
  it('that fall on one moment are one wake', () => {
    expect(timesOfYear([at(2, 30), at(3, 30)], 'Europe/Berlin', 1, 2025).length).toBe(2 * 365 - 1)
    expect(timesOfYear([at(0), at(0)], 'Asia/Kolkata', 5.5, 2025).length).toBe(365)
  })
  // New South Wales: first Sunday of October to first Sunday of April at 02:00 standard time; in 2025, 5 and 6.
  it('follow southern daylight saving, which lasts over the new year', () => {
    const times = [...timesOfYear([at(12)], 'Australia/Sydney', 10, 2025)]
    expect(times[0]).toBe(on(1, 1, 11))
    expect(times).toContain(on(4, 5, 11))
    expect(times).toContain(on(4, 6, 12))
    expect(times).toContain(on(10, 4, 12))
    expect(times).toContain(on(10, 5, 11))
  })
  // Lord Howe Island: UTC + 10:30, half an hour of daylight saving.
  it('follow a change of half an hour in a zone of half hours', () => {
    const times = [...timesOfYear([at(12)], 'Australia/Lord_Howe', 10.5, 2025)]
    expect(times[0]).toBe(on(1, 1, 11.5))
    expect(times).toContain(on(7, 1, 12))
  })
  it('at midnight of daylight saving fall on the evening before by standard time', () => {
    const times = [...timesOfYear([at(0)], 'Europe/Berlin', 1, 2025)]
    expect(times.length).toBe(365)
    expect(times[0]).toBe(0)
    expect(times).toContain(on(7, 1, 23))
  })
  it('lose a southern midnight of the old year and win one at its end', () => {
    const times = timesOfYear([at(0)], 'Australia/Sydney', 10, 2025)
    expect([times.length, times[0], times.at(-1)]).toEqual([365, 23 * HOUR_s, on(12, 31, 23)])
  })
  it('of a leap year stop after 365 days', () => {
    expect(timesOfYear([at(6)], 'Asia/Kolkata', 5.5, 2024).length).toBe(365)
  })
  it('refuse an unknown zone, an impossible time and an empty list', () => {
    expect(() => timesOfYear([at(6)], 'Nowhere/At_All', 0, 2025)).toThrow(RangeError)
    expect(() => timesOfYear([at(25)], 'Asia/Kolkata', 5.5, 2025)).toThrow(RangeError)
    expect(() => timesOfYear([], 'Asia/Kolkata', 5.5, 2025)).toThrow(RangeError)
  })

  const schedule: Schedule<number> = {
    kind: 'times-of-day',
    times: [at(6), at(18)],
    zone: 'Asia/Kolkata',
  }
  const times = timesOfYear(schedule.times, schedule.zone, 5.5, 2025)
  it('wake at the next of them, and at the first of the next year after the last', () => {
    const cadence = aCadence(schedule)
    expect(wakeAfter(cadence, 6 * HOUR_s, 6 * HOUR_s + 5, times)).toEqual({
      at_s: 18 * HOUR_s,
      cause: 'schedule',
      missed: 0,
    })
    const evening = YEAR_s - 6 * HOUR_s
    expect(wakeAfter(cadence, evening, evening + 5, times)!.at_s).toBe(YEAR_s + 6 * HOUR_s)
    expect(wakeAfter(cadence, 0, 10, times)!.at_s).toBe(6 * HOUR_s)
  })
  it('are missed while the device works, also when the work ends at that very time', () => {
    const morning = 6 * HOUR_s
    expect(wakeAfter(aCadence(schedule), morning, 18 * HOUR_s, times)).toMatchObject({
      at_s: DAY_s + morning,
      missed: 1,
    })
  })
  it('must come with their moments', () => {
    expect(() => wakeAfter(aCadence(schedule), 0, 1)).toThrow(/timesOfYear/)
  })
})

describe('random events', () => {
  it('come first as often as the exponential law says, and count from the end of the work', () => {
    const cadence = aCadence({ kind: 'rest', rest_s: 3600 }, { events: { perDay: 24 } })
    const draw = stream(9, 0, 0)
    const n = 20_000
    let events = 0
    for (let i = 0; i < n; i++) {
      const next = nextWake(cadence, 0, { start_s: 0, end_s: 5 }, null, draw)!
      expect(next.at_s).toBeGreaterThan(5)
      if (next.cause === 'event') events++
      else expect(next.at_s).toBe(3605)
    }
    const p = 1 - Math.exp(-1)
    expect(Math.abs(events / n - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / n))
  })
  it('alone are enough; with nothing at all the device never wakes', () => {
    expect(wakeAfter(aCadence(null, { events: { perDay: 3 } }), 0, 1)?.cause).toBe('event')
    expect(wakeAfter(aCadence(null), 0, 1)).toBeNull()
  })
})

describe('a thrift table', () => {
  const thrift = [
    { below_V: 3.7, hysteresis_V: 0.1, interval_s: 900 },
    { below_V: 3.5, hysteresis_V: 0.05, interval_s: 3590 },
  ]
  it.each([
    ['holds above the first row', 3.7, 0, 0],
    ['steps down below it', 3.69, 0, 1],
    ['falls through two rows at once', 3.4, 0, 2],
    ['stays within the hysteresis', 3.55, 2, 2],
    ['steps up above it', 3.56, 2, 1],
    ['climbs all the way', 3.9, 2, 0],
  ])('%s', (_, voltage_V, row, expected) => {
    expect(thriftRow(thrift, voltage_V, row)).toBe(expected)
  })
  it('is neither entered nor left at a voltage that equals its threshold, whatever noise a sum of volts carries', () => {
    for (let below_mV = 900; below_mV <= 4200; below_mV += 10)
      for (let hysteresis_mV = 10; hysteresis_mV <= 200; hysteresis_mV += 10) {
        const row = { below_V: below_mV / 1000, hysteresis_V: hysteresis_mV / 1000, interval_s: 900 }
        const out_mV = below_mV + hysteresis_mV
        const rows = [below_mV, below_mV - 1].map((mV) => thriftRow([row], mV / 1000, 0))
        const left = [out_mV, out_mV + 1].map((mV) => thriftRow([row], mV / 1000, 1))
        expect([below_mV, hysteresis_mV, ...rows, ...left]).toEqual([below_mV, hysteresis_mV, 0, 1, 1, 0])
      }
  })
  it('replaces the interval of a rest, a rate, and minutes to the nearest whole one', () => {
    const intervals = (
      [
        { kind: 'rest', rest_s: 60 },
        { kind: 'rate', period_s: 60 },
        { kind: 'clock-minutes', minutes: 1 },
      ] as const
    ).map((schedule) => scheduleOf(aCadence(schedule, { thrift }), 2))
    expect(intervals).toEqual([
      { kind: 'rest', rest_s: 3590 },
      { kind: 'rate', period_s: 3590 },
      { kind: 'clock-minutes', minutes: 60 },
    ])
  })
  it('has nothing to replace where there is no interval, and no rows beyond its own', () => {
    expect(() => scheduleOf(aCadence(null, { thrift }), 1)).toThrow(/needs a schedule with an interval/)
    expect(() => scheduleOf(aCadence({ kind: 'rest', rest_s: 60 }, { thrift }), 3)).toThrow(
      /rows 0\.\.2, not 3/,
    )
  })
})
