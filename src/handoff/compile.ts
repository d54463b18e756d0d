/** From a design to what its firmware needs: tables, latch, budget, checklist, or why it cannot be handed over. */
import { atBest } from '../outlook/draw.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { ThriftRow } from '../wake/wake.ts'
import { intervalsOf } from './alarms.ts'
import { checklistOf } from './checklist.ts'
import { constantsOf, misfits } from './constants.ts'
import type { ClockKeeps, Handoff, Latch, Obstacle, Origin, Remark, Row } from './handoff.ts'
import { latchOf } from './latch.ts'
import { atLeast_mV, atMost_mV } from './millivolts.ts'

const DAY_s = 86_400
/** Rows are numbered by eight bits. */
const MOST_ROWS = 255
/** Millivolts are held in sixteen bits, of which the highest value stands for "always". */
const MOST_mV = 65_534

/** More of the charge than this is worth a word. */
const MUCH_HELD_BACK = 0.1

export interface HandoffChoices {
  readonly origin: Origin
  readonly clock: ClockKeeps
  /** The calendar year whose clock changes count as the rule. */
  readonly year: number
}

export type HandoffResult =
  | { readonly ok: true; readonly handoff: Handoff }
  | { readonly ok: false; readonly obstacles: readonly Obstacle[] }

export function handoffOf(outpost: Outpost, { origin, clock, year }: HandoffChoices): HandoffResult {
  const design = atBest(outpost)
  const { cadence } = design.wake
  const { alarm, intervals_s, obstacles } = intervalsOf(cadence, clock, year)
  const latched = latchOf(design)
  const { budget, reports_milli } = constantsOf(outpost, origin.seed, origin.draws, year)
  const all = [
    ...obstacles,
    ...('obstacle' in latched ? [latched.obstacle] : tooHigh(latched.latch, cadence.thrift)),
    ...tooMany(cadence.thrift),
    ...misfits(budget),
  ]
  if (all.length > 0 || 'obstacle' in latched) return { ok: false, obstacles: all }
  const rows = [null, ...cadence.thrift].map(
    (thrift, row): Row => ({
      below_mV: thrift && atLeast_mV(thrift.below_V),
      above_mV: thrift && atMost_mV(thrift.below_V + thrift.hysteresis_V),
      interval_s: intervals_s[row],
      reports_milli: reports_milli[row],
    }),
  )
  const { latch } = latched
  const made = { alarm, rows, latch, budget, clock }
  return {
    ok: true,
    handoff: {
      origin,
      events: cadence.events !== null,
      ...made,
      checklist: checklistOf(outpost, made),
      remarks: remarksOn(made),
    },
  }
}

function tooMany(thrift: readonly unknown[]): Obstacle[] {
  if (thrift.length < MOST_ROWS) return []
  return [
    {
      code: 'thrift-too-long',
      path: ['cadence', 'thrift'],
      message: `${thrift.length} rows are more than eight bits can number`,
      expected: `at most ${MOST_ROWS - 1} rows`,
      cure: 'drop rows that differ little from their neighbours',
    },
  ]
}

function tooHigh({ restart_mV }: Latch, thrift: readonly ThriftRow<number>[]): Obstacle[] {
  const highest_mV = Math.max(restart_mV, ...thrift.map((row) => 1000 * (row.below_V + row.hysteresis_V)))
  if (highest_mV <= MOST_mV) return []
  return [
    {
      code: 'voltage-too-high',
      path: ['supply'],
      message: `${(highest_mV / 1000).toFixed(1)} V do not fit sixteen bits of millivolts`,
      expected: `thresholds up to ${MOST_mV} mV`,
      cure: 'check the cells in series, and the voltages of thrift table and "restart above"',
    },
  ]
}

function remarksOn({
  alarm,
  rows,
  latch,
  clock,
}: Pick<Handoff, 'alarm' | 'rows' | 'latch' | 'clock'>): Remark[] {
  const remarks: Remark[] = []
  if (
    alarm?.kind === 'rate' &&
    rows.some(({ interval_s }) => interval_s !== null && DAY_s % interval_s !== 0)
  )
    remarks.push({
      code: 'grid-needs-days',
      path: 'cadence.rate',
      message: 'an interval does not divide the day, so its grid does not begin anew at midnight',
      cure: 'give the clock function the days since a fixed day, not always 0; or choose an interval that divides 24 h',
    })
  if (rows.some(({ interval_s }) => interval_s !== null && interval_s > DAY_s))
    remarks.push({
      code: 'alarm-beyond-a-day',
      path: 'cadence',
      message: 'an interval is longer than a day, and an alarm by hour, minute and second fires daily',
      cure: 'let the alarm pass as many times as "skips" says',
    })
  if (alarm?.kind === 'times-of-day' && clock === 'local time')
    remarks.push({
      code: 'clock-keeps-local-time',
      path: 'cadence.times of day',
      message: `the alarm times are those of ${alarm.zone}, and the clock is taken to keep its local time`,
      cure: 'set the clock at each change of summer time, and then ask for the next alarm anew: a wake whose time is skipped falls out',
    })
  if (latch.restart_mV === latch.low_mV)
    remarks.push({
      code: 'restart-without-hysteresis',
      path: 'supply.restart above',
      message: `it stops below ${latch.low_mV} mV and starts again at that very voltage`,
      cure: `raise "restart above" over ${latch.low_mV} mV by more than the battery sags in a wake`,
    })
  if (latch.heldBack > MUCH_HELD_BACK)
    remarks.push({
      code: 'latch-holds-back',
      path: 'supply.brownout',
      message: `set for the coldest nights, the latch stops at 20 °C with ${Math.round(100 * latch.heldBack)} % of the charge left that could still be used`,
      cure: 'let a larger capacitor carry the bursts, or take a cell with less resistance in the cold; a cell of nearly level voltage wants its charge counted instead',
    })
  return remarks
}
