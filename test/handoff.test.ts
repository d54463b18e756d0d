/** The C that is handed over, compiled by the system's compiler and asked a million times, against the simulation. */
import { Temporal } from 'temporal-polyfill'
import { afterAll, describe, expect, it } from 'vitest'
import { cHeader } from '../src/handoff/c-header.ts'
import { cSource } from '../src/handoff/c-source.ts'
import { stream } from '../src/numeric/random.ts'
import type { Outpost } from '../src/outpost/outpost.ts'
import { nextWake, thriftRow } from '../src/wake/cadence.ts'
import { timesOfYear } from '../src/wake/local-times.ts'
import type { Schedule, ThriftRow } from '../src/wake/wake.ts'
import { compileC, compileCpp, folderWith, missing } from './compile-c.ts'
import { exact, sunlit } from './designs.ts'
import {
  ANSWER_BYTES,
  AS_ANSWERED,
  answerAt,
  driverOf,
  folders,
  handedOver,
  packed,
  type Question,
  removeFolders,
  YEAR,
} from './handoff-driver.ts'

/** Of each of five designs: a million in all. */
const ASKED = 200_000
const DAY_s = 86_400

const noCompiler = missing('cc')
const noCpp = missing('c++')
if (noCompiler !== null) console.warn(`skipped: ${noCompiler}`)

/**
 * Voltages that wander, jump, and linger at the thresholds; clocks that show any second of three years, and often one
 * close to midnight, to a full hour or to a full minute.
 */
const questions: readonly Question[] = (() => {
  const random = stream(20, 0, 0)
  const whole = (below: number) => Math.floor(random.uniform() * below)
  let battery_mV = 4000
  return Array.from({ length: ASKED }, () => {
    battery_mV += whole(81) - 40
    if (whole(40) === 0) battery_mV = 2500 + whole(1900)
    if (whole(20) === 0)
      battery_mV = [3000, 3020, 3500, 3620, 3651, 3700, 3800, 3850][whole(8)] + whole(3) - 1
    battery_mV = Math.min(Math.max(battery_mV, 0), 65_535)
    const near = [1, 60, 3600, DAY_s][whole(4)]
    const now_s = near * whole((3 * 365 * DAY_s) / near) + (near === 1 ? 0 : whole(5))
    return { now_s: Math.max(0, now_s - 2), battery_mV, wasLow: AS_ANSWERED }
  })
})()
const input = packed(questions)

const thrift: readonly ThriftRow<number>[] = [
  { below_V: 3.8, hysteresis_V: 0.05, interval_s: 1800 },
  // No whole millivolts, and a way out that lies above that of the row before.
  { below_V: 3.6204, hysteresis_V: 0.2333, interval_s: 5400 },
  { below_V: 3.02, hysteresis_V: 0.48, interval_s: 3 * DAY_s },
]

const designWith = (schedule: Schedule<number>, rows: readonly ThriftRow<number>[]): Outpost<number> => ({
  ...sunlit,
  wake: { ...sunlit.wake, cadence: { schedule, events: null, thrift: rows } },
})

const schedules: { schedule: Schedule<number>; rows: readonly ThriftRow<number>[]; bcd: boolean }[] = [
  { schedule: { kind: 'rest', rest_s: 600 }, rows: thrift, bcd: false },
  { schedule: { kind: 'rate', period_s: 900 }, rows: thrift, bcd: true },
  { schedule: { kind: 'rate', period_s: 7 * 60 }, rows: [], bcd: false },
  { schedule: { kind: 'clock-minutes', minutes: 20 }, rows: thrift, bcd: true },
  {
    schedule: {
      kind: 'times-of-day',
      zone: '+01:00',
      times: ['23:59:59', '00:00:00', '06:30:00', '12:00:01'].map((text) => {
        const [hour, minute, second] = text.split(':').map(Number)
        return { hour, minute, second }
      }),
    },
    rows: [],
    bcd: true,
  },
]

afterAll(removeFolders)

describe.skipIf(noCompiler !== null)('C that is handed over', () => {
  it.each(schedules)(
    'decides as the simulation, a million times in all: $schedule.kind, BCD $bcd',
    ({ schedule, rows, bcd }) => {
      const design = designWith(schedule, rows)
      const { cadence } = design.wake
      const handoff = handedOver(exact(design))
      const answers = driverOf(handoff, bcd)(input)
      expect(answers.byteLength).toBe(ANSWER_BYTES * ASKED)
      const times_s =
        schedule.kind === 'times-of-day' ? timesOfYear(schedule.times, schedule.zone, 1, YEAR) : null
      const shown = bcd ? (x: number) => 10 * (x >> 4) + (x & 15) : (x: number) => x
      const random = stream(21, 0, 0)
      let row = 0
      let low = false
      const wrong: unknown[] = []
      const seen = new Set<number>()
      for (const [i, { now_s, battery_mV }] of questions.entries()) {
        row = thriftRow(cadence.thrift, battery_mV / 1000, row)
        seen.add(row)
        low = battery_mV < handoff.latch.low_mV || (low && battery_mV < handoff.latch.restart_mV)
        // The clock shows whole seconds that have passed; the work ended within the one that follows.
        const end_s = now_s + 0.001 + 0.998 * random.uniform()
        const next = nextWake(cadence, row, { start_s: end_s - 1, end_s }, times_s, random)
        const at_s = Math.floor(next!.at_s + 1e-6)
        const date = new Date(1000 * at_s) // an oracle for hours, minutes and seconds
        const answer = answerAt(answers, i)
        const same =
          answer.row === row &&
          answer.low === Number(low) &&
          answer.at_s === at_s &&
          answer.ahead_s === at_s - now_s &&
          answer.skips === Math.ceil((at_s - now_s) / DAY_s) - 1 &&
          shown(answer.hour) === date.getUTCHours() &&
          shown(answer.minute) === date.getUTCMinutes() &&
          shown(answer.second) === date.getUTCSeconds()
        if (!same && wrong.length < 5) wrong.push({ i, now_s, battery_mV, row, low, at_s, answer })
      }
      expect(wrong).toEqual([])
      expect(seen.size).toBe(rows.length + 1)
    },
  )

  it('keeps local times through changes of summer time, by the rules of the IANA data', () => {
    const zone = 'Europe/London'
    const times = [
      { hour: 6, minute: 30, second: 0 },
      { hour: 18, minute: 30, second: 0 },
    ]
    const schedule = { kind: 'times-of-day' as const, times, zone }
    const design = designWith(schedule, [])
    const moments_s = timesOfYear(times, zone, 0, YEAR)
    const local = (at_s: number) =>
      Temporal.Instant.fromEpochMilliseconds(Date.UTC(YEAR, 0, 1) + 1000 * at_s).toZonedDateTimeISO(zone)
    const random = stream(23, 0, 0)
    const ends_s = Array.from({ length: 2000 }, () => Math.floor(random.uniform() * 364 * DAY_s))
    const answers = driverOf(
      handedOver(exact(design)),
      false,
    )(
      packed(
        ends_s.map((end_s) => {
          const { hour, minute, second } = local(end_s)
          return { now_s: 3600 * hour + 60 * minute + second, battery_mV: 4000, wasLow: 0 }
        }),
      ),
    )
    for (const [i, end_s] of ends_s.entries()) {
      const next = nextWake(design.wake.cadence, 0, { start_s: end_s - 1, end_s }, moments_s, random)
      const { hour, minute, second } = local(next!.at_s)
      expect(answerAt(answers, i)).toMatchObject({ hour, minute, second })
    }
  })

  // Common practice, no source: such an alarm fires at the N-th change of the minute. Packed BCD: 0x09 is 9, 0x59 is 59.
  it('sets an alarm in clock minutes past midnight, in BCD', () => {
    const ask = driverOf(handedOver(exact(designWith({ kind: 'clock-minutes', minutes: 10 }, []))), true)
    const at = (now_s: number) => answerAt(ask(packed([{ now_s, battery_mV: 4000, wasLow: 0 }])), 0)
    expect(at(DAY_s - 30)).toMatchObject({ hour: 0, minute: 0x09, second: 0, ahead_s: 570, skips: 0 })
    expect(at(DAY_s - 660)).toMatchObject({ hour: 0x23, minute: 0x59, second: 0, ahead_s: 600 })
  })

  it('has no alarm to set where only events wake the device', () => {
    const events = { ...sunlit.wake, cadence: { schedule: null, events: { perDay: 40 }, thrift: [] } }
    const handoff = handedOver(exact({ ...sunlit, wake: events }))
    const style = { prefix: 'outpost', bcd: true }
    const header = cHeader(handoff, style)
    expect(header).toContain('#define OUTPOST_HAS_ALARM 0')
    const folder = folderWith({ 'outpost.h': header, 'outpost.c': cSource(handoff, style) })
    folders.push(folder)
    expect(compileC(folder, ['-c', 'outpost.c'], 'outpost.o')).toBe('')
  })

  it.skipIf(noCpp !== null)(`can be included from C++${noCpp === null ? '' : ` (skipped: ${noCpp})`}`, () => {
    const style = { prefix: 'outpost', bcd: true }
    const handoff = handedOver(exact(designWith(schedules[0].schedule, thrift)))
    const folder = folderWith({
      'outpost.h': cHeader(handoff, style),
      'main.cpp': '#include "outpost.h"\n#include "outpost.h"\nint main() { return outpost_row(3700, 0); }\n',
    })
    folders.push(folder)
    expect(compileCpp(folder, 'main.cpp')).toBe('')
  })
})
