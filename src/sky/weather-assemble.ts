/** From the columns of a file to a weather year: bounds, gaps, the clock, and beam and diffuse light where it has none. */
import { DAYS, HOURS } from './calendar.ts'
import { erbsHourly } from './diffuse-split.ts'
import { extraterrestrialNormal_W_m2 } from './extraterrestrial.ts'
import type { WeatherYear } from './place.ts'
import { type SkyLight, skyLight } from './sky-light.ts'
import { bridgeGaps, type Column, hasData, LONGEST_GAP_H } from './weather-column.ts'
import { checkAgainstSky } from './weather-plausibility.ts'
import type { ProblemList } from './weather-result.ts'
import type { WeatherSite, WeatherTable } from './weather-table.ts'

/** Beyond these no hour has ever been; irradiance a little below zero is an instrument's night-time offset. */
const TEMPERATURE_BOUNDS_C = [-90, 65] as const
const IRRADIANCE_BOUNDS_W_m2 = [-20, 1500] as const
/** The year, or null with problems added; notes of what was mended go into `table.notes`. */
export function assembleYear(
  site: WeatherSite,
  table: WeatherTable,
  problems: ProblemList,
): WeatherYear | null {
  const light = [table.global, table.beamNormal, table.diffuse]
  checkBounds(table.temperature, TEMPERATURE_BOUNDS_C, '°C', table, problems)
  for (const column of light) checkBounds(column, IRRADIANCE_BOUNDS_W_m2, 'W/m²', table, problems)
  for (const column of light) raiseToZero(column, table)
  for (const column of [table.temperature, table.global, table.beamNormal, table.diffuse]) {
    const optional = column === table.beamNormal || column === table.diffuse
    if (optional && !hasData(column)) continue
    const bridged = bridgeGaps(column, table.lineOfHour, problems)
    if (bridged > 0)
      table.notes.push(
        `${column.name}: ${bridged} missing hours bridged by straight lines, none in a gap over ${LONGEST_GAP_H} h`,
      )
  }
  if (problems.problems.length > 0) return null
  const sky = skyLight(site.latitude_deg, site.longitude_deg, site.zone_h, 1)
  checkAgainstSky(table, sky, problems)
  if (problems.problems.length > 0) return null
  completeSplit(table, sky)
  return {
    ...site,
    global_W_m2: table.global.values,
    beamNormal_W_m2: table.beamNormal.values,
    diffuse_W_m2: table.diffuse.values,
    temperature_C: table.temperature.values,
  }
}

function checkBounds(
  column: Column,
  [low, high]: readonly [number, number],
  unit: string,
  table: WeatherTable,
  problems: ProblemList,
): void {
  for (let hour = 0; hour < HOURS && !problems.full; hour++) {
    const value = column.values[hour]
    if (!column.known[hour] || (value >= low && value <= high)) continue
    problems.add(
      'weather.range',
      table.lineOfHour[hour] || null,
      `${column.name} is ${value} ${unit}`,
      `${low} to ${high} ${unit}`,
      'mend the value, or mark it as missing',
    )
  }
}

function raiseToZero(column: Column, table: WeatherTable): void {
  let raised = 0
  for (let hour = 0; hour < HOURS; hour++)
    if (column.values[hour] < 0) {
      column.values[hour] = 0
      raised++
    }
  if (raised > 0) table.notes.push(`${column.name}: ${raised} hours a little below zero taken as zero`)
}

/**
 * Whichever of beam and diffuse light the file lacks: from the other and the global light where it has one of them,
 * else by the hourly law of Erbs. Beam light never exceeds what comes from the sun; the rest is diffuse.
 */
function completeSplit(table: WeatherTable, sky: SkyLight): void {
  const { global, beamNormal, diffuse } = table
  const hasBeam = hasData(beamNormal)
  const hasDiffuse = hasData(diffuse)
  if (hasBeam && hasDiffuse) return
  for (let day = 0; day < DAYS; day++) {
    const limit_W_m2 = extraterrestrialNormal_W_m2(day + 1)
    for (let hour = 24 * day; hour < 24 * day + 24; hour++) {
      const total = global.values[hour]
      const cosine = sky.cosZenith[hour]
      const above = sky.horizontal_W_m2[hour]
      if (!hasBeam) {
        const scattered = hasDiffuse
          ? diffuse.values[hour]
          : above > 0
            ? total * erbsHourly(total / above)
            : total
        beamNormal.values[hour] =
          cosine > 0 ? Math.min(Math.max(total - scattered, 0) / cosine, limit_W_m2) : 0
      }
      if (!hasDiffuse) diffuse.values[hour] = Math.max(total - beamNormal.values[hour] * cosine, 0)
    }
  }
  const how =
    hasBeam || hasDiffuse
      ? 'from the other two quantities'
      : 'from the global light by the law of Erbs et al. (1982)'
  const what = hasBeam ? 'diffuse light' : hasDiffuse ? 'beam light' : 'beam and diffuse light'
  table.notes.push(`${what} worked out ${how}`)
}
