/** The cadence in whole seconds of a real-time clock, or why it does not fit one. */
import { scheduleOf } from '../wake/cadence.ts'
import { timesOfYear } from '../wake/local-times.ts'
import type { Cadence, Schedule } from '../wake/wake.ts'
import type { Alarm, ClockKeeps, Obstacle } from './handoff.ts'

const DAY_s = 86_400
/** A clock of 32 bits counts on for as long again. */
const LONGEST_s = 0x7fffffff
/** Decimal fractions of an hour or a day come out a little off the whole second. */
const NOISE_s = 1e-6

const KEYS = { rest: 'rest', rate: 'rate', 'clock-minutes': 'clock minutes' } as const

export interface Intervals {
  readonly alarm: Alarm | null
  /** One for each row, the schedule's own first; null where there is none. */
  readonly intervals_s: readonly (number | null)[]
  readonly obstacles: readonly Obstacle[]
}

/** `year` is a calendar year whose clock changes count as the rule. */
export function intervalsOf(cadence: Cadence<number>, clock: ClockKeeps, year: number): Intervals {
  const { schedule, thrift } = cadence
  if (schedule === null) return { alarm: null, intervals_s: [null], obstacles: [] }
  if (schedule.kind === 'times-of-day') {
    const times_s = clock === 'UTC' ? timesInUtc_s(schedule, year) : timesOfDay_s(schedule)
    return {
      alarm: { kind: schedule.kind, times_s: times_s ?? [], zone: schedule.zone },
      intervals_s: [null],
      obstacles: times_s === null ? [changingClock(schedule.zone)] : [],
    }
  }
  const exact_s = [null, ...thrift].map((_, row) => interval_s(scheduleOf(cadence, row)))
  return {
    alarm: { kind: schedule.kind },
    intervals_s: exact_s.map(Math.round),
    obstacles: exact_s.flatMap((seconds, row) => {
      const path = row === 0 ? ['cadence', KEYS[schedule.kind]] : ['cadence', 'thrift', row - 1, 'interval']
      return fitsClock(seconds) ? [] : [offTheSecond(path, seconds)]
    }),
  }
}

function interval_s(schedule: Schedule<number> | null): number {
  switch (schedule?.kind) {
    case 'rest':
      return schedule.rest_s
    case 'rate':
      return schedule.period_s
    case 'clock-minutes':
      return 60 * schedule.minutes
    case 'times-of-day':
    case undefined:
      throw new RangeError('only a rest, a rate and clock minutes have an interval')
  }
}

const fitsClock = (seconds: number) =>
  Math.abs(seconds - Math.round(seconds)) < NOISE_s && seconds >= 1 - NOISE_s && seconds <= LONGEST_s

const offTheSecond = (path: Obstacle['path'], seconds: number): Obstacle => ({
  code: 'interval-not-whole-seconds',
  path,
  message: `an alarm on a clock cannot wait ${seconds} s`,
  expected: `whole seconds, from 1 s to ${LONGEST_s} s`,
  cure: 'round it to whole seconds in the file, so that forecast and firmware count alike',
})

type TimesOfDay = Extract<Schedule<number>, { kind: 'times-of-day' }>

const timesOfDay_s = ({ times }: TimesOfDay): number[] =>
  rising(times.map(({ hour, minute, second }) => 3600 * hour + 60 * minute + second))

/** Null where the zone changes its clocks, so that the times wander through the day of a clock in UTC. */
function timesInUtc_s({ times, zone }: TimesOfDay, year: number): number[] | null {
  const seen = rising([...timesOfYear(times, zone, 0, year)].map((at_s) => at_s % DAY_s))
  return seen.length === times.length ? seen : null
}

const rising = (seconds: readonly number[]) => [...new Set(seconds)].sort((a, b) => a - b)

const changingClock = (zone: string): Obstacle => ({
  code: 'times-need-local-clock',
  path: ['cadence', 'times of day'],
  message: `${zone} changes its clocks in spring and autumn, and a clock that keeps UTC does not`,
  expected: 'a zone without clock changes ("UTC+1"), or a clock that keeps local time',
  cure: 'let the clock keep local time ("--clock local") and set it at each change, or name a fixed offset as the zone',
})
