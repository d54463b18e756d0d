/** Which columns are time, current and voltage, and in which units. */
import { namedColumn, numberedColumn } from './csv-column-names.ts'
import type { Dialect } from './csv-dialect.ts'
import { fieldsOf, numberIn } from './csv-fields.ts'
import type { ColumnPlan } from './csv-row-plan.ts'
import { type CalendarTime, parseClockTime, parseIsoTime } from './csv-time.ts'
import { type Dimension, type HeaderUnit, headerUnit, unclearUnit, unitInName } from './header-units.ts'
import type { Origin } from './recording.ts'
import { UnclearSource } from './unclear-source.ts'

export interface CsvOptions {
  /** Columns by name or by place from 1, where the header does not say. */
  readonly time?: string | number
  readonly current?: string | number
  readonly voltage?: string | number
  readonly timeUnit?: string
  readonly currentUnit?: string
  readonly voltageUnit?: string
  /** Samples a second: for sources without times, or instead of them. */
  readonly rate_Hz?: number
  readonly separator?: string
  readonly mark?: '.' | ','
}

export interface ColumnChoice {
  readonly columns: readonly ColumnPlan[]
  readonly interval_s: number | null
  readonly timeResolution_s: number
  readonly origin: Origin
  readonly notes: readonly string[]
}

export function chooseColumns(dialect: Dialect, options: CsvOptions): ColumnChoice {
  if (dialect.misfit && (options.current === undefined || options.currentUnit === undefined))
    throw misfitting(dialect.misfit, dialect.columns)
  const rows = dialect.data
    .map((line) => fieldsOf(line.text, dialect.separator))
    .filter((fields) => fields.length === dialect.columns)
  const notes: string[] =
    dialect.passedOver > 0 ? [`${dialect.passedOver} lines above the table passed over`] : []
  const asked = (role: Dimension): number | null =>
    options[role] === undefined ? null : askedColumn(dialect, role, options[role])
  let [time, current, voltage] = [asked('time'), asked('current'), asked('voltage')]
  const said = [time, current, voltage].filter((each) => each !== null)
  if (new Set(said).size < said.length)
    throw new Error('one column cannot be two of time, current and voltage')
  time ??= namedColumn(dialect.names, 'time', [current, voltage])
  const numbered = time === null ? numberedColumn(dialect.names) : -1
  current ??= namedColumn(dialect.names, 'current', [time, voltage, numbered])
  voltage ??= namedColumn(dialect.names, 'voltage', [time, current, numbered])
  if (time === null && numbered < 0) time = byValues(rows, current, voltage, dialect)
  if (current === null) {
    const taken = [time, voltage, numbered]
    const free = Array.from({ length: dialect.columns }, (_, k) => k).filter((k) => !taken.includes(k))
    current =
      free.find((k) => rows.some((fields) => Number.isFinite(numberIn(fields[k], dialect.mark)))) ?? null
    if (current === null)
      throw new UnclearSource(
        'no column of current was found; give its column a header with a unit, such as "current (mA)"',
        ['current column', 'unit'],
      )
    if (dialect.names && free.length > 1)
      throw new UnclearSource(
        `no column is called a current or has a unit of current (${dialect.names.join(', ')}); name one so in the header, as "current (mA)"`,
        ['current column', 'unit'],
      )
    notes.push(`column ${current + 1} taken as the current`)
  }
  const columns = [scalarColumn('current', current, options.currentUnit, dialect, notes)]
  if (voltage !== null) columns.push(scalarColumn('voltage', voltage, options.voltageUnit, dialect, notes))
  const clock = timing(time, numbered, rows, dialect, options, notes)
  if (clock.column) columns.push(clock.column)
  columns.sort((a, b) => a.index - b.index)
  return { ...clock, columns, notes }
}

function misfitting({ line, names }: NonNullable<Dialect['misfit']>, columns: number): Error {
  return new UnclearSource(
    `line ${line} names ${names.length} columns (${names.join(', ')}) and the rows below hold ${columns}, so the units cannot be told; give both as many columns, and quotes around what holds the separator`,
    ['current column', 'unit'],
  )
}

function askedColumn(dialect: Dialect, role: Dimension, asked: string | number): number {
  const index =
    typeof asked === 'number'
      ? asked - 1
      : (dialect.names?.findIndex((name) => name.trim().toLowerCase() === asked.trim().toLowerCase()) ?? -1)
  if (Number.isInteger(index) && index >= 0 && index < dialect.columns) return index
  const known = dialect.names?.join(', ') ?? `1 to ${dialect.columns}`
  throw new Error(`there is no column ${asked} to be the ${role}; there are ${known}`)
}

/** Without a name: a column of calendar times, or the first of several when it rises. */
function byValues(
  rows: readonly string[][],
  current: number | null,
  voltage: number | null,
  dialect: Dialect,
): number | null {
  for (let k = 0; k < dialect.columns; k++)
    if (rows.length > 0 && rows.every((fields) => calendar(fields[k]) !== null)) return k
  if (dialect.names !== null || current === 0 || voltage === 0 || dialect.columns < 2) return null
  const first = rows.map((fields) => numberIn(fields[0], dialect.mark)).filter(Number.isFinite)
  return first.length > 1 &&
    first.every((x, i) => i === 0 || x >= first[i - 1]) &&
    first[0] < first[first.length - 1]
    ? 0
    : null
}

const calendar = (field: string): CalendarTime | null => parseIsoTime(field) ?? parseClockTime(field)

function unitOf(
  role: Dimension,
  index: number,
  asked: string | undefined,
  dialect: Dialect,
  notes: string[],
): HeaderUnit {
  const name = dialect.names?.[index]
  const unit = asked === undefined ? (name === undefined ? null : unitInName(name)) : headerUnit(asked)
  if (asked !== undefined && unit?.dimension !== role) throw new Error(`${asked} is not a unit of ${role}`)
  const label = name === undefined ? `column ${index + 1}` : `"${name}"`
  if (unit?.dimension === role) {
    notes.push(`${role} from ${label} in ${unit.name}`)
    return unit
  }
  const base = { time: 's', current: 'A', voltage: 'V' }[role]
  const unclear = unit?.name ?? (name === undefined ? null : unclearUnit(name))
  if (unclear !== null)
    throw new UnclearSource(
      `${label} is to be the ${role}, and "${unclear}" is no known unit of it; write its unit into the header, as in "${role} (m${base})"`,
      ['unit'],
    )
  notes.push(`${role} from ${label}: no unit stated, taken as ${base}`)
  return { dimension: role, name: base, shift: 0, factor: 1 }
}

function scalarColumn(
  role: 'current' | 'voltage',
  index: number,
  asked: string | undefined,
  dialect: Dialect,
  notes: string[],
): ColumnPlan {
  const { shift, factor } = unitOf(role, index, asked, dialect, notes)
  return { role, index, kind: 'number', shift, factor, origin: 0 }
}

interface Timing {
  readonly column: ColumnPlan | null
  readonly interval_s: number | null
  readonly timeResolution_s: number
  readonly origin: Origin
}

function timing(
  time: number | null,
  numbered: number,
  rows: readonly string[][],
  dialect: Dialect,
  options: CsvOptions,
  notes: string[],
): Timing {
  const rate = options.rate_Hz
  if (rate !== undefined && !(rate > 0 && Number.isFinite(rate)))
    throw new RangeError(`a sampling rate is above 0 Hz, not ${rate}`)
  const base = { role: 'time' as const, shift: 0, factor: 1, origin: 0 }
  const elapsed = { kind: 'elapsed' as const, first_s: 0 }
  if (rate !== undefined && numbered >= 0) {
    notes.push(`time from sample number at ${rate} Hz`)
    const origin = (firstNumber(rows, numbered, dialect.mark) ?? 0) / rate
    const column: ColumnPlan = { ...base, index: numbered, kind: 'number', factor: 1 / rate, origin }
    return { column, interval_s: null, timeResolution_s: 0, origin: elapsed }
  }
  if (rate !== undefined || time === null) {
    if (rate === undefined)
      throw new UnclearSource(
        'no column of time was found; name one so in the header, as "time (s)", or give the sampling rate',
        ['time column'],
      )
    notes.push(
      time === null
        ? `time from a rate of ${rate} Hz`
        : `time from a rate of ${rate} Hz, not from its column`,
    )
    return { column: null, interval_s: 1 / rate, timeResolution_s: 0, origin: elapsed }
  }
  const dated = rows.map((fields) => calendar(fields[time])).find((each) => each !== null)
  if (dated) {
    const first = dated.seconds + dated.fraction
    const decimals = Math.max(...rows.map((fields) => calendar(fields[time])?.decimals ?? 0))
    const isDate = rows.some((fields) => parseIsoTime(fields[time]) !== null)
    notes.push(isDate && !dated.zoned ? 'calendar time without zone, taken as UTC' : 'calendar time')
    return {
      column: { ...base, index: time, kind: 'calendar', origin: first },
      interval_s: null,
      timeResolution_s: Math.max(10 ** -decimals, 1e-9),
      origin: isDate
        ? { kind: 'clock', epoch_s: first, zoned: dated.zoned }
        : { kind: 'elapsed', first_s: first },
    }
  }
  return numericTiming(time, rows, dialect, options, notes)
}

/** Numbers of time; large ones without a unit count seconds, ms, µs or ns since 1970. */
function numericTiming(
  time: number,
  rows: readonly string[][],
  dialect: Dialect,
  options: CsvOptions,
  notes: string[],
): Timing {
  const first = firstNumber(rows, time, dialect.mark) ?? 0
  const named = dialect.names?.[time]
  const stated =
    options.timeUnit !== undefined || (named !== undefined && unitInName(named)?.dimension === 'time')
  const sinceEpoch = EPOCHS.find((each) => first >= each.from && first < each.from * 10)
  const guessed = stated ? undefined : sinceEpoch?.unit
  const { shift, factor } = unitOf('time', time, options.timeUnit ?? guessed, dialect, notes)
  const first_s = shifted(first, shift) * factor
  const digit = Math.min(...rows.map((fields) => lastDigit(fields[time])))
  const isEpoch = EPOCHS[0].from <= first_s && first_s < EPOCHS[0].from * 10
  return {
    column: { role: 'time', index: time, kind: 'number', shift, factor, origin: first_s },
    interval_s: null,
    timeResolution_s: digit * 10 ** shift * factor + 2 * Number.EPSILON * Math.abs(first_s),
    origin: isEpoch ? { kind: 'clock', epoch_s: first_s, zoned: true } : { kind: 'elapsed', first_s },
  }
}

/** Seconds since 1970 from 2001 to 2286, and the same in smaller units. */
const EPOCHS = [
  { from: 1e9, unit: 's' },
  { from: 1e12, unit: 'ms' },
  { from: 1e15, unit: 'us' },
  { from: 1e18, unit: 'ns' },
]

const shifted = (x: number, shift: number): number => (shift < 0 ? x / 10 ** -shift : x * 10 ** shift)

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
