/** Can the light of a file be this sun's? Catches wrong units, a wrong zone, a wrong sign of longitude, shifted stamps. */
import { MONTH_STARTS } from './calendar.ts'
import { LARGEST_CLEARNESS } from './climate-months.ts'
import type { SkyLight } from './sky-light.ts'
import { clockShift_h } from './weather-clock.ts'
import type { ProblemList } from './weather-result.ts'
import type { WeatherTable } from './weather-table.ts'

/** Light off the sun's time by more is a wrong zone or longitude; by more than three quarters, worth a word. */
const WRONG_CLOCK_H = 2
const DOUBTFUL_CLOCK_H = 0.75
/** No year on earth is darker than this share of the light above the air; the cloudiest have 0.25. */
const DARKEST_YEAR = 0.1
/** A month with less light above the air (mean, W/m²) is twilight as much as day. */
const ENOUGH_W_m2 = 12

export function checkAgainstSky(table: WeatherTable, sky: SkyLight, problems: ProblemList): void {
  checkAmount(table, sky, problems)
  checkClock(table, sky, problems)
}

function meanOver(hourly: Float64Array, firstDay: number, endDay: number): number {
  const span = hourly.subarray(24 * firstDay, 24 * endDay)
  return span.reduce((sum, value) => sum + value, 0) / span.length
}

function checkAmount(table: WeatherTable, sky: SkyLight, problems: ProblemList): void {
  const clearnessOf = (firstDay: number, endDay: number): number =>
    meanOver(table.global.values, firstDay, endDay) / meanOver(sky.horizontal_W_m2, firstDay, endDay)
  const cure = 'check that irradiance is in W/m² and the latitude has the right sign'
  const year = clearnessOf(0, 365)
  if (year < DARKEST_YEAR)
    problems.add(
      'weather.light',
      null,
      `the year's light is ${(100 * year).toPrecision(2)} % of the light above the air`,
      `at least ${100 * DARKEST_YEAR} %`,
      cure,
    )
  for (let month = 0; month < 12; month++) {
    const [first, end] = [MONTH_STARTS[month], MONTH_STARTS[month + 1]]
    if (meanOver(sky.horizontal_W_m2, first, end) < ENOUGH_W_m2) continue
    const clearness = clearnessOf(first, end)
    if (clearness > LARGEST_CLEARNESS)
      problems.add(
        'weather.light',
        table.lineOfHour[24 * first] || null,
        `the light of month ${month + 1} is ${clearness.toFixed(2)} of the light above the air`,
        `at most ${LARGEST_CLEARNESS}`,
        cure,
      )
  }
}

function checkClock(table: WeatherTable, sky: SkyLight, problems: ProblemList): void {
  const shift_h = clockShift_h(table.global.values, sky.horizontal_W_m2)
  if (shift_h === null) return // no light at all: said already
  const said = `the light comes ${Math.abs(shift_h).toFixed(1)} h ${shift_h > 0 ? 'later' : 'earlier'} than the sun`
  if (Math.abs(shift_h) > WRONG_CLOCK_H)
    problems.add(
      'weather.clock',
      null,
      `${said} at this longitude and zone`,
      `light within ${WRONG_CLOCK_H} h of the sun`,
      'check the signs of longitude (east positive) and zone (ahead of UTC positive)',
    )
  else if (Math.abs(shift_h) > DOUBTFUL_CLOCK_H)
    table.notes.push(`${said}: is a time the beginning or the end of its hour, and is the zone right?`)
}
