import { describe, expect, it } from 'vitest'
import { stream } from '../../src/numeric/random.ts'
import { nextWake } from '../../src/wake/cadence.ts'
import { crystalError_ppm } from '../../src/wake/crystal.ts'
import { dayShares } from '../../src/wake/day.ts'
import { expectedWakes } from '../../src/wake/expected-wakes.ts'
import { timesOfYear } from '../../src/wake/local-times.ts'
import { momentsOf } from '../../src/wake/moments.ts'
import type { Schedule, Wake } from '../../src/wake/wake.ts'
import { wearOf } from '../../src/wake/wear.ts'
import practice from '../../truth/wake/common-practice.json' with { type: 'json' }
import crystal from '../../truth/wake/crystal.json' with { type: 'json' }
import duty from '../../truth/wake/duty-cycles.json' with { type: 'json' }
import flash from '../../truth/wake/flash-wear.json' with { type: 'json' }
import local from '../../truth/wake/local-times.json' with { type: 'json' }
import { aCadence, aStep, aWake } from '../example-wakes.ts'

/** Sources and provenance: truth/wake/README.md. Every field: largest error allowed, unit, cause of the residual. */
const TOLERANCE = {
  crystal: { max: 1e-9, unit: 'ppm', cause: 'rounding' },
  crystalDay: { max: 1e-8, unit: 's', cause: 'rounding' },
  wear: { max: 1e-8, unit: 'year', cause: 'digits printed' },
  dayCharge: { max: 1e-8, unit: 'mAh', cause: 'rounding' },
}

function average_A(wake: Wake<number>): number {
  const { wakesPerDay } = expectedWakes(wake, null, 3600)[0]
  const shares = dayShares(wake, momentsOf(wake), wakesPerDay)
  return shares.reduce((sum, { charge_C }) => sum + charge_C, 0) / 86_400
}

describe('duty cycles (closed form)', () => {
  it.each(duty)('$id', ({ steps, rest_A, period_s, expected_uA, tolerance_uA, expected_mAh_per_day }) => {
    const wake = aWake({
      rest_A,
      steps: steps.map((step) => aStep(step)),
      cadence: aCadence({ kind: 'rate', period_s }),
    })
    expect(Math.abs(1e6 * average_A(wake) - expected_uA)).toBeLessThanOrEqual(tolerance_uA)
    if (expected_mAh_per_day !== null)
      expect(Math.abs(1e3 * 24 * average_A(wake) - expected_mAh_per_day)).toBeLessThanOrEqual(
        TOLERANCE.dayCharge.max,
      )
  })
})

describe('life of an ideal cell (common practice, no source)', () => {
  const cases = practice.flatMap((row): (typeof row & { schedule: Schedule<number> })[] => {
    const rest_s = row.period_s - row.on_s
    const minutes = row.period_s / 60
    return [
      { ...row, schedule: { kind: 'rest', rest_s } },
      { ...row, schedule: { kind: 'rate', period_s: row.period_s } },
      ...(minutes >= 1 ? [{ ...row, schedule: { kind: 'clock-minutes' as const, minutes } }] : []),
    ]
  })
  it.each(cases)(
    '$id, $schedule.kind',
    ({ schedule, on_s, awake_A, rest_A, capacity_mAh, expected_h, tolerance_h }) => {
      const steps = [aStep({ duration_s: on_s, current_A: awake_A })]
      const life_h = capacity_mAh / 1000 / average_A(aWake({ rest_A, steps, cadence: aCadence(schedule) }))
      expect(Math.abs(life_h - expected_h)).toBeLessThanOrEqual(tolerance_h)
    },
  )
})

describe('an alarm set N minutes ahead (common practice, no source)', () => {
  it.each([
    [1, '10:00:59', '10:01:00'],
    [1, '10:00:00', '10:01:00'],
    [5, '10:00:30', '10:05:00'],
    [5, '23:58:10', '24:03:00'],
  ])('%d from %s fires at the N-th change of the minute, %s', (minutes, from, to) => {
    const seconds = (text: string) => text.split(':').reduce((sum, part) => 60 * sum + Number(part), 0)
    const work = { start_s: seconds(from) - 5, end_s: seconds(from) }
    const cadence = aCadence({ kind: 'clock-minutes', minutes })
    expect(nextWake(cadence, 0, work, null, stream(1, 0, 0))?.at_s).toBe(seconds(to))
  })
})

describe('flash wear (closed form)', () => {
  it.each(flash)('$id', ({ record_B, period_s, page_B, pages, endurance, expected_years }) => {
    const kept = {
      name: 'log',
      memory: 'flash',
      bytes: record_B,
      pageBytes: page_B,
      pages,
      endurance,
    } as const
    const [{ years }] = wearOf([kept], 86_400 / period_s)
    expect(Math.abs(years! - expected_years)).toBeLessThanOrEqual(TOLERANCE.wear.max)
  })
})

describe('crystal drift (closed form; constants from memory)', () => {
  it.each(crystal)('$id', ({ mean_C, amplitude_K, expected_ppm, expected_s_per_day }) => {
    const ppm = crystalError_ppm(mean_C, amplitude_K)
    expect(Math.abs(ppm - expected_ppm)).toBeLessThanOrEqual(TOLERANCE.crystal.max)
    expect(Math.abs(0.0864 * ppm - expected_s_per_day)).toBeLessThanOrEqual(TOLERANCE.crystalDay.max)
  })
})

describe("local times of day against another library's reading of the IANA zones", () => {
  it.each(local)('$zone in $year', ({ zone, zone_h, year, runs }) => {
    const times_s = timesOfYear([{ hour: 4, minute: 30, second: 15 }], zone, zone_h, year)
    const expected = Array.from({ length: 365 }, (_, day) => {
      const [, inDay_s] = runs.findLast(([first]) => first <= day)!
      return 86_400 * day + inDay_s
    })
    expect([...times_s]).toEqual(expected)
  })
})
