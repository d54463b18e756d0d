/** When the samples of a table were taken: from a column of times, from two of days and clocks, or from a rate. */
import { unitOf } from './csv-column-units.ts'
import type { Dialect } from './csv-dialect.ts'
import { numberIn } from './csv-fields.ts'
import { shifted } from './csv-number.ts'
import type { ColumnPlan } from './csv-row-plan.ts'
import { type CalendarTime, monthComesFirst, parseCalendar } from './csv-time.ts'
import { unitInName } from './header-units.ts'
import type { Origin } from './recording.ts'
import { UnclearSource } from './unclear-source.ts'
import { CLOCK_WRAPS, counterWrap, type Wrap } from './wrapped-clock.ts'

export interface Timing {
  readonly columns: readonly ColumnPlan[]
  readonly interval_s: number | null
  readonly timeResolution_s: number
  readonly origin: Origin
  /** How the clock starts anew, where it may; null where it does not. */
  readonly wrap: Wrap | null
}

/** Columns that may say when, from 0. */
export interface TimeColumns {
  readonly time: number | null
  /** Days, beside a column of clock times. */
  readonly day: number | null
  /** Sample numbers. */
  readonly numbered: number | null
}

interface Asked {
  readonly rate_Hz?: number
  readonly timeUnit?: string
}

const BASE = { role: 'time', shift: 0, factor: 1, origin: 0 } as const

/** Adds to `notes` what was taken. Throws where nothing says when. */
export function timing(
  { time, day, numbered }: TimeColumns,
  rows: readonly string[][],
  dialect: Dialect,
  asked: Asked,
  notes: string[],
): Timing {
  const rate = asked.rate_Hz
  if (rate !== undefined && !(rate > 0 && Number.isFinite(rate)))
    throw new RangeError(`a sampling rate is above 0 Hz, not ${rate}`)
  const elapsed = { kind: 'elapsed' as const, first_s: 0 }
  if (rate !== undefined && numbered !== null) {
    notes.push(`time from sample number at ${rate} Hz`)
    const origin = (firstNumber(rows, numbered, dialect.mark) ?? 0) / rate
    const column: ColumnPlan = { ...BASE, index: numbered, kind: 'number', factor: 1 / rate, origin }
    return { columns: [column], interval_s: null, timeResolution_s: 0, origin: elapsed, wrap: null }
  }
  if (rate !== undefined) {
    const beside = time === null ? '' : ', not from its column'
    notes.push(`time from a rate of ${rate} Hz${beside}`)
    return { columns: [], interval_s: 1 / rate, timeResolution_s: 0, origin: elapsed, wrap: null }
  }
  if (time === null)
    throw new UnclearSource(
      day === null
        ? 'no column of time was found; name one so in the header, as "time (s)", or give the sampling rate'
        : 'only days were found, and no column of time; add one, or give the sampling rate',
      ['time column'],
    )
  const texts = rows.map((fields) => fields[time])
  const days = day === null ? [] : rows.map((fields) => fields[day])
  return calendarTiming(time, day, texts, days, notes) ?? numericTiming(time, rows, dialect, asked, notes)
}

const CALENDAR_NOTES = {
  zoned: 'calendar time',
  unzoned: 'calendar time without zone, taken as UTC',
  day: 'times of day, counted on after midnight',
  hour: 'minutes and seconds, counted on after each full hour',
}

/** Null where no field of the column is a calendar time. */
function calendarTiming(
  time: number,
  day: number | null,
  texts: readonly string[],
  days: readonly string[],
  notes: string[],
): Timing | null {
  const order = monthComesFirst([...texts, ...days])
  const monthFirst = order?.monthFirst ?? false
  const read = (text: string) => parseCalendar(text, monthFirst)
  const first = texts.map(read).find((each) => each !== null && each.kind !== 'day')
  if (first == null) return null
  const date = first.kind === 'moment' || day === null ? null : days.map(read).find((each) => each !== null)
  const isClock = first.kind === 'moment' || date != null
  const example = [...days, ...texts].find((text) => text !== '')?.split(/\s/)[0]
  if (order !== null && isClock) {
    const way = monthFirst ? 'the month first' : 'the day first'
    notes.push(order.isSure ? `dates with ${way}` : `dates such as ${example} taken as with ${way}`)
  }
  const wraps = isClock ? null : first.kind === 'minutes' ? 'hour' : 'day'
  notes.push(CALENDAR_NOTES[wraps ?? (first.zoned ? 'zoned' : 'unzoned')])
  const first_s = first.seconds + first.fraction
  const at_s = first_s + (date?.seconds ?? 0)
  const decimals = Math.max(...texts.map((text) => read(text)?.decimals ?? 0))
  const plan = { shift: 0, factor: 1, kind: 'calendar', monthFirst } as const
  return {
    columns: [
      { ...plan, role: 'time', index: time, origin: first_s },
      ...(date != null && day !== null
        ? [{ ...plan, role: 'day' as const, index: day, origin: date.seconds }]
        : []),
    ],
    interval_s: null,
    timeResolution_s: Math.max(10 ** -decimals, 1e-9),
    origin: isClock
      ? { kind: 'clock', epoch_s: at_s, zoned: first.zoned }
      : { kind: 'elapsed', first_s: at_s },
    wrap: wraps && CLOCK_WRAPS[wraps],
  }
}

/** Most fields are none by their look; tables may have thousands of columns. */
const LOOKS_CALENDAR = /\d[:/-]\d|\.\d+\./

/** The kind of calendar time in these fields, of which a few may be damaged; null where they hold something else. */
export function calendarKind(texts: readonly string[]): CalendarTime['kind'] | null {
  const likely = texts.filter((text) => LOOKS_CALENDAR.test(text))
  if (2 * likely.length <= texts.length) return null
  const monthFirst = monthComesFirst(likely)?.monthFirst ?? false
  const read = likely.flatMap((text) => parseCalendar(text, monthFirst)?.kind ?? [])
  return 2 * read.length > texts.length && new Set(read).size === 1 ? read[0] : null
}

/** Numbers of time; large ones without a unit count seconds, ms, µs or ns since 1970. */
function numericTiming(
  time: number,
  rows: readonly string[][],
  dialect: Dialect,
  { timeUnit }: Asked,
  notes: string[],
): Timing {
  const first = firstNumber(rows, time, dialect.mark) ?? 0
  const named = dialect.names?.[time]
  const stated = timeUnit !== undefined || (named !== undefined && unitInName(named)?.dimension === 'time')
  const sinceEpoch = EPOCHS.find((each) => first >= each.from && first < each.from * 10)
  const guessed = stated ? undefined : sinceEpoch?.unit
  const { shift, factor } = unitOf('time', time, timeUnit ?? guessed, dialect, notes)
  const first_s = shifted(first, shift) * factor
  const digit = Math.min(...rows.map((fields) => lastDigit(fields[time])))
  const isEpoch = EPOCHS[0].from <= first_s && first_s < EPOCHS[0].from * 10
  const wrap = digit < 1 ? null : counterWrap(10 ** shift * factor)
  return {
    columns: [{ ...BASE, index: time, kind: 'number', shift, factor, origin: first_s }],
    interval_s: null,
    timeResolution_s: digit * 10 ** shift * factor + 2 * Number.EPSILON * Math.abs(first_s),
    origin: isEpoch ? { kind: 'clock', epoch_s: first_s, zoned: true } : { kind: 'elapsed', first_s },
    wrap: isEpoch ? null : wrap,
  }
}

/** Seconds since 1970 from 2001 to 2286, and the same in smaller units. */
const EPOCHS = [
  { from: 1e9, unit: 's' },
  { from: 1e12, unit: 'ms' },
  { from: 1e15, unit: 'us' },
  { from: 1e18, unit: 'ns' },
]

function firstNumber(rows: readonly string[][], index: number, mark: string): number | null {
  for (const fields of rows) {
    const x = numberIn(fields[index], mark)
    if (Number.isFinite(x)) return x
  }
  return null
}

/** The unit of the last digit of a number as written: 0.01 for `1.25`, 10 for `1.2e2`. */
function lastDigit(field: string): number {
  const match = /^[-+]?\d*(?:[.,](\d*))?(?:e([-+]?\d+))?$/i.exec(field)
  return match ? 10 ** (Number(match[2] ?? 0) - (match[1]?.length ?? 0)) : Number.POSITIVE_INFINITY
}
