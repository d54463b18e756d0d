/** What every reader fills: the columns of a year and the site, before checks and mending. */
import { HOURS } from './calendar.ts'
import { type Column, emptyColumn } from './weather-column.ts'
import type { ProblemList } from './weather-result.ts'

export interface WeatherSite {
  readonly title: string
  readonly latitude_deg: number
  readonly longitude_deg: number
  readonly elevation_m: number
  readonly zone_h: number
}

export type Quantity = 'global' | 'beamNormal' | 'diffuse' | 'temperature'

export interface WeatherTable extends Readonly<Record<Quantity, Column>> {
  /** Line that gave each hour, 0 where none did. */
  readonly lineOfHour: Int32Array
  readonly notes: string[]
}

export const emptyTable = (): WeatherTable => ({
  global: emptyColumn('global irradiance'),
  beamNormal: emptyColumn('beam irradiance'),
  diffuse: emptyColumn('diffuse irradiance'),
  temperature: emptyColumn('air temperature'),
  lineOfHour: new Int32Array(HOURS),
  notes: [],
})

/** The site, or problems with its numbers; `null` stands for a number that is missing or not one. */
export function siteOf(
  title: string,
  values: Readonly<Record<'latitude' | 'longitude' | 'elevation' | 'zone', number | null>>,
  line: number | null,
  cure: string,
  problems: ProblemList,
): WeatherSite | null {
  const bounds = {
    latitude: [-90, 90],
    longitude: [-180, 180],
    elevation: [-500, 9000],
    zone: [-12, 14],
  } as const
  const units = {
    latitude: 'degrees',
    longitude: 'degrees, east positive',
    elevation: 'metres',
    zone: 'hours ahead of UTC',
  }
  let sound = true
  for (const name of ['latitude', 'longitude', 'elevation', 'zone'] as const) {
    const value = values[name]
    const [low, high] = bounds[name]
    if (value !== null && value >= low && value <= high) continue
    sound = false
    const message = value === null ? `the site has no ${name}` : `the site's ${name} is ${value}`
    problems.add('weather.site', line, message, `${name} from ${low} to ${high} ${units[name]}`, cure)
  }
  if (!sound) return null
  return {
    title,
    latitude_deg: values.latitude as number,
    longitude_deg: values.longitude as number,
    elevation_m: values.elevation as number,
    zone_h: values.zone as number,
  }
}

/** Claims an hour for a line; false, with a problem, where another line already has it. */
export function claimHour(table: WeatherTable, hour: number, line: number, problems: ProblemList): boolean {
  const earlier = table.lineOfHour[hour]
  if (earlier === 0) {
    table.lineOfHour[hour] = line
    return true
  }
  problems.add(
    'weather.duplicate',
    line,
    `this hour of the year was given before, in line ${earlier}`,
    'each hour of one year once',
    'cut the file down to one year; times must be standard time, also in summer',
  )
  return false
}

export function noteLeapHours(table: WeatherTable, hours: number): void {
  if (hours > 0)
    table.notes.push(`29 February dropped (${Math.round(hours)} records): a weather year here has 365 days`)
}
