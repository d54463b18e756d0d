/** The records of a file that has one comma-separated line an hour, stamped at the end of the hour: EPW and TMY3. */
import { dayIndex, isDate } from './calendar.ts'
import { setHour } from './weather-column.ts'
import type { ProblemList } from './weather-result.ts'
import { claimHour, noteLeapHours, type Quantity, type WeatherTable } from './weather-table.ts'
import { fieldsOf, numberOf } from './weather-text.ts'

interface EndOfHour {
  readonly month: number
  readonly day: number
  /** 1..24. */
  readonly hour: number
}

export interface RecordField {
  readonly quantity: Quantity
  readonly position: number
  readonly label: string
  isMissing(value: number): boolean
}

export interface RecordLayout {
  /** Index of the first line with data. */
  readonly from: number
  readonly fields: readonly RecordField[]
  /** The number written where there is no value, for messages. */
  readonly missing: string
  timeOf(fields: readonly string[]): EndOfHour | null
  readonly timeExpected: string
  /** Columns that hold the time, for messages. */
  readonly timePositions: readonly number[]
}

const REFETCH = 'mend the line or fetch the file again'

/** Hour of the year, null on 29 February, undefined where there is no such time. */
function hourOf(time: EndOfHour | null): number | null | undefined {
  if (time === null || !isDate(time.month, time.day)) return undefined
  if (!Number.isInteger(time.hour) || time.hour < 1 || time.hour > 24) return undefined
  const day = dayIndex(time.month, time.day)
  return day === null ? null : day * 24 + time.hour - 1
}

export function readHourRecords(
  lines: readonly string[],
  layout: RecordLayout,
  table: WeatherTable,
  problems: ProblemList,
): void {
  const least = 1 + Math.max(...layout.fields.map((f) => f.position), ...layout.timePositions)
  let leapHours = 0
  for (let i = layout.from; i < lines.length && !problems.full; i++) {
    if (lines[i].trim() === '') continue
    const fields = fieldsOf(lines[i], ',')
    if (fields.length < least) {
      const found = `the line has ${fields.length} fields`
      problems.add('weather.fields', i + 1, found, `at least ${least} fields`, `it is cut short: ${REFETCH}`)
      continue
    }
    const hour = hourOf(layout.timeOf(fields))
    if (hour === undefined) {
      const found = `"${layout.timePositions.map((p) => fields[p]).join(' ')}" is no time of a year`
      problems.add('weather.time', i + 1, found, layout.timeExpected, REFETCH)
    } else if (hour === null) leapHours++
    else if (claimHour(table, hour, i + 1, problems))
      for (const field of layout.fields) readField(fields, field, layout, table, hour, i + 1, problems)
  }
  noteLeapHours(table, leapHours)
}

function readField(
  fields: readonly string[],
  field: RecordField,
  layout: RecordLayout,
  table: WeatherTable,
  hour: number,
  line: number,
  problems: ProblemList,
): void {
  const value = numberOf(fields[field.position])
  if (value === null) {
    const found = `field ${field.position + 1} (${field.label}) is "${fields[field.position]}"`
    problems.add('weather.number', line, found, `a number; ${layout.missing} where it is missing`, REFETCH)
  } else if (!field.isMissing(value)) setHour(table[field.quantity], hour, value)
}
