/**
 * TMY3, the typical meteorological years of the US National Solar Radiation Data Base: Wilcox & Marion, "Users manual
 * for TMY3 data sets", NREL/TP-581-43156 (2008). Times 01:00..24:00 in local standard time name the end of the hour;
 * columns are found by the names in line 2; −9900 means missing.
 */
import { type RecordField, readHourRecords } from './hour-records.ts'
import type { ProblemList } from './weather-result.ts'
import { type Quantity, siteOf, type WeatherSite, type WeatherTable } from './weather-table.ts'
import { fieldsOf, numberOf } from './weather-text.ts'

const DATE = 'Date (MM/DD/YYYY)'
const TIME = 'Time (HH:MM)'
const LABELS: readonly (readonly [Quantity, string])[] = [
  ['temperature', 'Dry-bulb (C)'],
  ['global', 'GHI (W/m^2)'],
  ['beamNormal', 'DNI (W/m^2)'],
  ['diffuse', 'DHI (W/m^2)'],
]
/** −9900 in the manual; some copies carry −9999 or −999. No real value comes near. */
const isMissing = (value: number): boolean => value <= -900

export const looksLikeTmy3 = (lines: readonly string[]): boolean =>
  (lines[1] ?? '').replaceAll('"', '').trimStart().startsWith(DATE)

/** Reads the header and fills `table`; null where the site is not sound. */
export function readTmy3(
  lines: readonly string[],
  table: WeatherTable,
  problems: ProblemList,
): WeatherSite | null {
  const [, name, state, zone, latitude, longitude, elevation] = fieldsOf(lines[0], ',')
  const site = siteOf(
    [name, state].filter(Boolean).join(', '),
    {
      latitude: numberOf(latitude),
      longitude: numberOf(longitude),
      elevation: numberOf(elevation),
      zone: numberOf(zone),
    },
    1,
    'mend line 1: station,"name",state,zone,latitude,longitude,elevation',
    problems,
  )
  const header = fieldsOf(lines[1], ',')
  const absent = [TIME, ...LABELS.map(([, label]) => label)].filter((label) => !header.includes(label))
  for (const label of absent)
    problems.add(
      'weather.column',
      2,
      `there is no column "${label}"`,
      `a column called "${label}"`,
      'fetch the file again; its header is damaged',
    )
  if (absent.length > 0) return site
  const date = header.indexOf(DATE)
  const time = header.indexOf(TIME)
  readHourRecords(
    lines,
    {
      from: 2,
      fields: LABELS.map(
        ([quantity, label]): RecordField => ({
          quantity,
          position: header.indexOf(label),
          label,
          isMissing,
        }),
      ),
      missing: '-9900',
      timeOf: (fields) => endOfHour(fields[date], fields[time]),
      timeExpected: 'MM/DD/YYYY and 01:00 to 24:00',
      timePositions: [date, time],
    },
    table,
    problems,
  )
  return site
}

function endOfHour(date: string, time: string): { month: number; day: number; hour: number } | null {
  const d = /^(\d{1,2})\/(\d{1,2})\/\d{4}$/.exec(date)
  const t = /^(\d{1,2}):00$/.exec(time)
  return d && t ? { month: Number(d[1]), day: Number(d[2]), hour: Number(t[1]) } : null
}
