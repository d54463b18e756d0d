/** Which columns are time, current and voltage, and in which units. */
import { currentsBeside, namedColumn, numberedColumn } from './csv-column-names.ts'
import { unitOf } from './csv-column-units.ts'
import type { Dialect } from './csv-dialect.ts'
import { fieldsOf, numberIn } from './csv-fields.ts'
import type { ColumnPlan } from './csv-row-plan.ts'
import { calendarKind, type Timing, timing } from './csv-timing.ts'
import type { Dimension } from './header-units.ts'
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
  /** Amperes per count, where the column of current holds counts. */
  readonly scale_A?: number
  readonly separator?: string
  readonly mark?: '.' | ','
}

export interface ColumnChoice extends Timing {
  readonly notes: readonly string[]
}

export function chooseColumns(dialect: Dialect, options: CsvOptions): ColumnChoice {
  if (dialect.misfit && (options.current === undefined || options.currentUnit === undefined))
    throw misfitting(dialect.misfit, dialect.columns)
  const rows = dialect.data
    .map((line) => fieldsOf(line.text, dialect.separator))
    .filter((fields) => fields.length === dialect.columns)
  const notes: string[] =
    dialect.passedOver > 0
      ? [`${dialect.passedOver} ${dialect.passedOver === 1 ? 'line' : 'lines'} above the table passed over`]
      : []
  const asked = (role: Dimension): number | null =>
    options[role] === undefined ? null : askedColumn(dialect, role, options[role])
  let [time, current, voltage] = [asked('time'), asked('current'), asked('voltage')]
  const said = [time, current, voltage].filter((each) => each !== null)
  if (new Set(said).size < said.length)
    throw new Error('one column cannot be two of time, current and voltage')
  const kinds = Array.from({ length: dialect.columns }, (_, k) =>
    calendarKind(rows.map((fields) => fields[k])),
  )
  const days = kinds.flatMap((kind, k) => (kind === 'day' ? [k] : []))
  // A column called date says nothing of the time of day: that is in another.
  const day = time !== null && days.includes(time) ? time : (days[0] ?? null)
  if (time === day) time = null
  time ??= namedColumn(dialect.names, 'time', [current, voltage, ...days])
  time ??= indexOf(kinds, (kind) => kind !== null && kind !== 'day')
  const numbered = time === null ? numberedColumn(dialect.names) : null
  current ??= namedColumn(dialect.names, 'current', [time, voltage, numbered])
  voltage ??= namedColumn(dialect.names, 'voltage', [time, current, numbered])
  if (time === null && dialect.names === null && current !== 0 && voltage !== 0 && rises(rows, dialect.mark))
    time = 0
  if (current === null) {
    const taken = [time, voltage, numbered, ...days]
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
  const beside = currentsBeside(dialect.names, current)
  if (beside.length > 0) notes.push(`not read: ${beside.map((name) => `"${name}"`).join(', ')}`)
  const columns = [
    options.scale_A === undefined
      ? scalarColumn('current', current, options.currentUnit, dialect, notes)
      : countsColumn(current, options, notes),
  ]
  if (voltage !== null) columns.push(scalarColumn('voltage', voltage, options.voltageUnit, dialect, notes))
  const timed = timing({ time, day, numbered }, rows, dialect, options, notes)
  columns.push(...timed.columns)
  columns.sort((a, b) => a.index - b.index)
  return { ...timed, columns, notes }
}

function indexOf<T>(values: readonly T[], fits: (value: T) => boolean): number | null {
  const index = values.findIndex(fits)
  return index < 0 ? null : index
}

/** Whether the first of several columns does: without names, that is the time. */
function rises(rows: readonly string[][], mark: string): boolean {
  const first = rows.map((fields) => numberIn(fields[0], mark)).filter(Number.isFinite)
  return (
    (rows[0]?.length ?? 0) > 1 &&
    first.length > 1 &&
    first.every((x, i) => i === 0 || x >= first[i - 1]) &&
    first[0] < first[first.length - 1]
  )
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

function countsColumn(index: number, { scale_A = 1, currentUnit }: CsvOptions, notes: string[]): ColumnPlan {
  if (currentUnit !== undefined)
    throw new Error('a column of current is in counts or in a unit, not both; leave one of them out')
  notes.push(`current from column ${index + 1}, ${scale_A} A per count`)
  return { role: 'current', index, kind: 'number', shift: 0, factor: scale_A, origin: 0 }
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
