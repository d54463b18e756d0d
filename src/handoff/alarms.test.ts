import { describe, expect, it } from 'vitest'
import type { Cadence, Schedule } from '../wake/wake.ts'
import { intervalsOf } from './alarms.ts'

const YEAR = 2025
const cadence = (
  schedule: Schedule<number> | null,
  thrift: Cadence<number>['thrift'] = [],
): Cadence<number> => ({ schedule, events: null, thrift })
const daily = (zone: string) =>
  cadence({
    kind: 'times-of-day',
    zone,
    times: [
      { hour: 18, minute: 30, second: 15 },
      { hour: 0, minute: 30, second: 0 },
    ],
  })

describe('intervals of a cadence', () => {
  it("takes the schedule's own first, then those of the thrift table", () => {
    const thrift = [{ below_V: 3.6, hysteresis_V: 0.05, interval_s: 3600 }]
    expect(intervalsOf(cadence({ kind: 'clock-minutes', minutes: 20 }, thrift), 'local time', YEAR)).toEqual({
      alarm: { kind: 'clock-minutes' },
      intervals_s: [1200, 3600],
      obstacles: [],
    })
  })

  it('has no alarm where only events wake the device', () => {
    expect(intervalsOf(cadence(null), 'UTC', YEAR)).toEqual({
      alarm: null,
      intervals_s: [null],
      obstacles: [],
    })
  })

  it.each([0.25, 2.5, 3e9])('refuses an interval of %d s, and says where', (interval_s) => {
    const own = intervalsOf(cadence({ kind: 'rest', rest_s: interval_s }), 'local time', YEAR)
    expect(own.obstacles).toMatchObject([{ code: 'interval-not-whole-seconds', path: ['cadence', 'rest'] }])
    const thrift = [{ below_V: 3.6, hysteresis_V: 0.05, interval_s }]
    const row = intervalsOf(cadence({ kind: 'rate', period_s: 60 }, thrift), 'local time', YEAR)
    expect(row.obstacles).toMatchObject([
      { code: 'interval-not-whole-seconds', path: ['cadence', 'thrift', 0, 'interval'] },
    ])
  })

  it('takes a tenth of an hour for whole seconds, however it is rounded', () => {
    expect(intervalsOf(cadence({ kind: 'rest', rest_s: 0.1 * 3600 }), 'UTC', YEAR).intervals_s).toEqual([360])
  })
})

describe('times of day', () => {
  it('stand as they are on a clock that keeps local time', () => {
    expect(intervalsOf(daily('Europe/Oslo'), 'local time', YEAR)).toMatchObject({
      alarm: { times_s: [1800, 66_615], zone: 'Europe/Oslo' },
      obstacles: [],
    })
  })

  // Kathmandu keeps UTC+5:45 all year (IANA time-zone data).
  it('are shifted on a clock that keeps UTC, in a zone without clock changes', () => {
    const shift_s = (5 * 60 + 45) * 60
    expect(intervalsOf(daily('Asia/Kathmandu'), 'UTC', YEAR)).toMatchObject({
      alarm: { times_s: [66_615 - shift_s, 86_400 + 1800 - shift_s] },
      obstacles: [],
    })
  })

  it('cannot be kept by a clock in UTC where the zone changes its clocks', () => {
    expect(intervalsOf(daily('Europe/Oslo'), 'UTC', YEAR).obstacles).toMatchObject([
      { code: 'times-need-local-clock', path: ['cadence', 'times of day'] },
    ])
  })
})
