/**
 * A plain CSV of weather: a header naming `time`, `ghi`, `temperature` and, where known, `dni` and `dhi` (W/m² and °C,
 * any order, other columns ignored), then one line an interval of an hour or a whole fraction of one. Times are
 * ISO 8601: with `Z` or an offset they are moved into the site's zone, without one they are its standard time. Lines
 * beginning with # are passed over. Empty fields, `nan`, `na`, `null` and numbers at or below −900 mean missing. The
 * days may come from any year, or from two halves, as long as each hour of a year comes once.
 */
import { dayIndex, isDate } from './calendar.ts'
import { HourMeans } from './hour-means.ts'
import type { ProblemList, WeatherHints } from './weather-result.ts'
import { noteLeapHours, type Quantity, siteOf, type WeatherSite, type WeatherTable } from './weather-table.ts'
import { fieldsOf, numberOf } from './weather-text.ts'

const NAMES: Readonly<Record<string, Quantity>> = {
  ghi: 'global',
  dni: 'beamNormal',
  dhi: 'diffuse',
  temperature: 'temperature',
}
const NEEDED = ['time', 'ghi', 'temperature']

interface Header {
  readonly line: number
  readonly separator: string
  readonly time: number
  readonly columns: readonly {
    readonly name: string
    readonly quantity: Quantity
    readonly position: number
  }[]
}

/** The header: the first line that says something, where it names the time or the global irradiance. */
export function csvHeader(lines: readonly string[]): Header | null {
  const line = lines.findIndex((text) => text.trim() !== '' && !text.startsWith('#'))
  if (line < 0) return null
  const separator = [',', ';', '\t'].find((c) => lines[line].includes(c)) ?? ','
  const names = fieldsOf(lines[line], separator).map((name) => name.toLowerCase())
  if (!names.includes('time') && !names.includes('ghi')) return null
  return {
    line,
    separator,
    time: names.indexOf('time'),
    columns: Object.entries(NAMES)
      .map(([name, quantity]) => ({ name, quantity, position: names.indexOf(name) }))
      .filter(({ position }) => position >= 0),
  }
}

/** Fills `table` and gives the site that the hints describe, null where they do not. */
export function readHourlyCsv(
  lines: readonly string[],
  header: Header,
  hints: WeatherHints,
  table: WeatherTable,
  problems: ProblemList,
): WeatherSite | null {
  const { latitude_deg, longitude_deg, elevation_m = 0, zone_h } = hints
  const site = siteOf(
    hints.title ?? 'weather from a CSV file',
    {
      latitude: latitude_deg ?? null,
      longitude: longitude_deg ?? null,
      elevation: elevation_m,
      zone: zone_h ?? null,
    },
    null,
    'a CSV file does not say where it was taken: give latitude, longitude and zone beside it',
    problems,
  )
  const absent = NEEDED.filter((n) =>
    n === 'time' ? header.time < 0 : !header.columns.some((c) => c.name === n),
  )
  for (const name of absent)
    problems.add(
      'weather.column',
      header.line + 1,
      `there is no column "${name}"`,
      'a header with time, ghi, temperature and perhaps dni and dhi',
      `name the column "${name}" in the header`,
    )
  if (site && absent.length === 0)
    readIntervals(lines, header, site.zone_h, hints.stamp ?? 'start', table, problems)
  return site
}

const TIME = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2})(?::00(?:\.0+)?)?(Z|[+-]\d{2}:?\d{2})?$/

/** Minutes of local standard time since 1970, or null. */
function localMinutes(text: string, zone_h: number): number | null {
  const [, date, clock, offset] = TIME.exec(text) ?? []
  if (date === undefined || !isDate(Number(date.slice(5, 7)), Number(date.slice(8)))) return null
  const minutes = Date.parse(`${date}T${clock}:00Z`) / 60_000
  if (!Number.isFinite(minutes)) return null
  if (offset === undefined) return minutes
  const [, sign, hours, rest] = /^([+-])(\d{2}):?(\d{2})$/.exec(offset) ?? [null, '+', '0', '0']
  return minutes - Number(`${sign}1`) * (Number(hours) * 60 + Number(rest)) + zone_h * 60
}

/** Hour of the 365-day year in which a minute of local time lies; null on 29 February. */
function hourOfMinute(minute: number): number | null {
  const date = new Date(minute * 60_000)
  const day = dayIndex(date.getUTCMonth() + 1, date.getUTCDate())
  return day === null ? null : day * 24 + date.getUTCHours()
}

function readIntervals(
  lines: readonly string[],
  header: Header,
  zone_h: number,
  stamp: 'start' | 'end',
  table: WeatherTable,
  problems: ProblemList,
): void {
  const records: { line: number; minute: number; fields: readonly string[] }[] = []
  const least = 1 + Math.max(header.time, ...header.columns.map((c) => c.position))
  for (let i = header.line + 1; i < lines.length && !problems.full; i++) {
    if (lines[i].trim() === '' || lines[i].startsWith('#')) continue
    const fields = fieldsOf(lines[i], header.separator)
    const minute = fields.length < least ? null : localMinutes(fields[header.time], zone_h)
    if (fields.length < least) {
      const found = `the line has ${fields.length} fields`
      problems.add('weather.fields', i + 1, found, `at least ${least}, as in the header`, 'mend the line')
    } else if (minute === null) {
      const found = `"${fields[header.time]}" is not a time`
      problems.add(
        'weather.time',
        i + 1,
        found,
        'a time like 2021-01-31T07:00 or 2021-01-31T07:00Z',
        'mend it',
      )
    } else records.push({ line: i + 1, minute, fields })
  }
  if (records.length < 2 || problems.full) return
  const interval = records[1].minute - records[0].minute
  if (!(interval > 0 && 60 % interval === 0)) {
    problems.add(
      'weather.time',
      records[1].line,
      `the first two records lie ${interval} minutes apart`,
      'records an hour or a whole fraction of an hour apart, in order of time',
      'sort the file, or average it to hours',
    )
    return
  }
  const shift = stamp === 'end' ? interval : 0
  const gathered = new HourMeans(header.columns.map((column) => column.quantity))
  let leapHours = 0
  for (const { line, minute, fields } of records) {
    const values = header.columns.map((column) =>
      readValue(fields[column.position], column.name, line, problems),
    )
    // An interval may straddle two hours where the zone is not a whole number of hours from the file's.
    const start = minute - shift
    for (let from = start; from < start + interval; ) {
      const to = Math.min(start + interval, (Math.floor(from / 60) + 1) * 60)
      const hour = hourOfMinute(from)
      if (hour === null) leapHours += (to - from) / interval
      else gathered.add(hour, to - from, values, line, table, problems)
      from = to
    }
    if (problems.full) return
  }
  gathered.writeTo(table)
  noteLeapHours(table, leapHours)
}

function readValue(field: string, name: string, line: number, problems: ProblemList): number | null {
  if (/^(nan|na|null|-)?$/i.test(field)) return null
  const value = numberOf(field)
  if (value === null)
    problems.add('weather.number', line, `${name} is "${field}"`, 'a number, or nothing', 'mend it')
  return value === null || value <= -900 ? null : value
}
