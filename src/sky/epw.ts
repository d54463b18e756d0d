/**
 * EPW, the EnergyPlus weather format: EnergyPlus documentation, "Auxiliary Programs", chapter on weather file format.
 * Hours 1..24 in local standard time name the end of the hour; irradiation is in Wh/m² received over it, so the number
 * is also the mean in W/m². Positions here count from 0, the documentation's N1.. from 1.
 */
import { type RecordField, readHourRecords } from './hour-records.ts'
import type { ProblemList } from './weather-result.ts'
import { siteOf, type WeatherSite, type WeatherTable } from './weather-table.ts'
import { fieldsOf, numberOf } from './weather-text.ts'

const isMissing = (value: number): boolean => value >= 9999
const FIELDS: readonly RecordField[] = [
  {
    quantity: 'temperature',
    position: 6,
    label: 'dry bulb temperature',
    isMissing: (value) => value >= 99.9,
  },
  { quantity: 'global', position: 13, label: 'global horizontal radiation', isMissing },
  { quantity: 'beamNormal', position: 14, label: 'direct normal radiation', isMissing },
  { quantity: 'diffuse', position: 15, label: 'diffuse horizontal radiation', isMissing },
]

export const looksLikeEpw = (lines: readonly string[]): boolean => /^\s*LOCATION\s*,/i.test(lines[0] ?? '')

/** Reads the header and fills `table`; null where the site is not sound. */
export function readEpw(
  lines: readonly string[],
  table: WeatherTable,
  problems: ProblemList,
): WeatherSite | null {
  const [, city, region, country, , , latitude, longitude, zone, elevation] = fieldsOf(lines[0], ',')
  const site = siteOf(
    [city, region, country].filter((part) => part && part !== '-').join(', '),
    {
      latitude: numberOf(latitude),
      longitude: numberOf(longitude),
      elevation: numberOf(elevation),
      zone: numberOf(zone),
    },
    1,
    'mend line 1: LOCATION,city,region,country,source,station,latitude,longitude,zone,elevation',
    problems,
  )
  const periods = lines.findIndex((line) => /^\s*DATA PERIODS\s*,/i.test(line))
  if (periods < 0) {
    problems.add(
      'weather.header',
      null,
      'there is no DATA PERIODS line',
      'eight header lines, the last beginning with DATA PERIODS',
      'fetch the file again; its head is damaged',
    )
    return site
  }
  const [, count, perHour] = fieldsOf(lines[periods], ',')
  if (count !== '1' || perHour !== '1') {
    problems.add(
      'weather.header',
      periods + 1,
      `the file has ${count || 'no'} data periods with ${perHour || 'no'} records an hour`,
      'one period with one record an hour (DATA PERIODS,1,1,...)',
      'average it to hours over one whole year',
    )
    return site
  }
  readHourRecords(
    lines,
    {
      from: periods + 1,
      fields: FIELDS,
      missing: '9999 (temperature 99.9)',
      timeOf: (f) => ({ month: Number(f[1]), day: Number(f[2]), hour: Number(f[3]) }),
      timeExpected: 'month 1 to 12, day of that month, hour 1 to 24',
      timePositions: [1, 2, 3],
    },
    table,
    problems,
  )
  return site
}
